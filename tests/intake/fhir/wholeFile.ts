import { bundleFault, entryOfBundle } from '../../../lib/intake/fhir/bundle.ts'
import { changedMeaning } from '../../../lib/intake/fhir/changedMeaning.ts'
import { objectsIfAny, textIfAny } from '../../../lib/intake/fhir/element.ts'
import type { FhirEntry } from '../../../lib/intake/fhir/entry.ts'
import type { FileIndex } from '../../../lib/intake/fhir/fileIndex.ts'
import { entryOfLine } from '../../../lib/intake/fhir/ndjson.ts'
import { mayBeAt, meansContained, namesOf, typeAndId, withoutVersion } from '../../../lib/intake/fhir/reference.ts'
import { rowsOfEntry } from '../../../lib/intake/fhir/rowsOfEntry.ts'
import { faultOfEnds, MOST_BYTES, notUtf8, nulByteAt, tooLarge } from '../../../lib/intake/fileBytes.ts'
import type { ReadTable } from '../../../lib/intake/index.ts'
import { isList, isObject, type JsonObject } from '../../../lib/intake/json/json.ts'
import { type JsonFault, parseJson } from '../../../lib/intake/json/parseJson.ts'

/** Bytes that begin no FHIR, or why they are not read; found with the whole file in memory. */
class Refused extends Error {
  readonly reason: string
  constructor(reason: string, sentence: string) {
    super(sentence)
    this.reason = reason
  }
}

const textOf = (bytes: Uint8Array): string | null => {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return null
  }
}

const linesIn = (text: string): number => text.split('\n').length - 1
const isBlank = (text: string): boolean => /^[ \t\r\n]*$/.test(text)

function fault({ reason, at, detail }: JsonFault, text: string, line: number, byte: number, name: string): Refused {
  const before = text.slice(0, at)
  const place = `on line ${line + linesIn(before)} at byte ${byte + Buffer.byteLength(before) + 1}`
  return new Refused(reason, `${name} cannot be read as JSON, ${place}: ${detail}.`)
}

const noFhir = (name: string) =>
  new Refused('unknown-json', `${name} is JSON but no FHIR: it needs a Bundle, or one resource on each line, each with its resourceType.`)

function linesOf(bytes: Uint8Array, start: number, line: number, name: string): FhirEntry[] {
  const entries: FhirEntry[] = []
  for (let from = start, at = line; from < bytes.length; at++) {
    const feed = bytes.indexOf(0x0a, from)
    const to = feed < 0 ? bytes.length : feed
    const text = textOf(bytes.subarray(from, to))
    if (text === null) throw new Refused('not-utf-8', notUtf8(bytes, name).sentence)
    if (!isBlank(text)) {
      const parsed = parseJson(text)
      if (!parsed.ok) throw fault(parsed, text, at, from, name)
      entries.push(entryOfLine(parsed.value, at, text))
    }
    from = to + 1
  }
  return entries
}

function bundleEntries(bundle: JsonObject, source: string, name: string): FhirEntry[] {
  const entries = bundle.members.get('entry')
  const entry = isList(entries) ? 'list' : bundle.members.has('entry') ? 'no list' : 'none'
  const outline = { resourceType: 'Bundle', type: textIfAny(bundle, 'type'), names: new Set(bundle.members.keys()), entry, to: bundle.to } as const
  const refused = bundleFault(outline, name)
  if (refused !== null) throw new Refused(refused.reason, refused.sentence)
  return isList(entries) ? entries.map((one, at) => entryOfBundle(one, at + 1, source)) : []
}

function entriesOf(bytes: Uint8Array, name: string): FhirEntry[] {
  let start = [0xef, 0xbb, 0xbf].every((byte, at) => bytes[at] === byte) ? 3 : 0
  while ([0x20, 0x09, 0x0d, 0x0a].includes(bytes[start] ?? 0)) start++
  const feed = bytes.indexOf(0x0a, start)
  const end = feed < 0 ? bytes.length : feed
  const line = 1 + [...bytes.subarray(0, start)].filter((byte) => byte === 0x0a).length
  const first = parseJson(textOf(bytes.subarray(start, end)) ?? '')
  if (first.ok && !bytes.subarray(end).every((byte) => [0x20, 0x09, 0x0d, 0x0a].includes(byte))) {
    if (!isObject(first.value) || textIfAny(first.value, 'resourceType') === '') throw noFhir(name)
    return linesOf(bytes, start, line, name)
  }
  const source = textOf(bytes.subarray(start))
  if (source === null) throw new Refused('not-utf-8', notUtf8(bytes, name).sentence)
  const whole = parseJson(source)
  if (!whole.ok) throw fault(whole, source, line, start, name)
  const type = isObject(whole.value) ? textIfAny(whole.value, 'resourceType') : ''
  if (!isObject(whole.value) || type === '') throw noFhir(name)
  return type === 'Bundle' ? bundleEntries(whole.value, source, name) : [entryOfLine(whole.value, line, source)]
}

/** An index that asks every entry. */
function indexOf(entries: readonly FhirEntry[]): FileIndex {
  const resources = entries.flatMap((entry) => (entry.resource === null ? [] : [{ entry, resource: entry.resource }]))
  const find = (reference: string, from: JsonObject): readonly JsonObject[] => {
    if (reference.startsWith('#')) return objectsIfAny(from, 'contained').filter((one) => meansContained(reference, one))
    const named = resources.filter(({ entry }) => namesOf(entry).url === withoutVersion(reference))
    const tail = typeAndId(reference)
    const same = resources.filter(
      ({ entry }) => tail !== null && namesOf(entry).typeId === `${tail.type}/${tail.id}` && mayBeAt(reference, entry.fullUrl),
    )
    return (named.length > 0 ? named : same).map(({ resource }) => resource)
  }
  const reports = resources.filter(({ resource }) => textIfAny(resource, 'resourceType') === 'DiagnosticReport' && changedMeaning(resource) === null)
  const reportOf = ({ resource: observation }: FhirEntry) => {
    const names = (report: JsonObject) =>
      objectsIfAny(report, 'result').some((one) => find(textIfAny(one, 'reference'), report).some((found) => found === observation))
    return reports.find(({ resource }) => names(resource))?.resource ?? null
  }
  // Remembers nothing.
  return {
    find,
    reportOf,
    subjects: new (class extends Map {
      override get = () => undefined
    })(),
  }
}

/** A list is no FHIR, whatever is in it. */
const beginsWithList = (bytes: Uint8Array): boolean =>
  /^(\u00ef\u00bb\u00bf)?[ \t\r\n]*\[/.test(Buffer.from(bytes.subarray(0, 1_000)).toString('latin1'))

/** What a FHIR file is, read the plain way: all of it in memory, every reference sought among all entries. */
export function readWhole(bytes: Uint8Array, name: string): ReadTable {
  const nul = bytes.indexOf(0)
  const tooMany = bytes.length > MOST_BYTES ? tooLarge(bytes.length, name) : null
  const bad = tooMany ?? faultOfEnds(bytes, bytes, name) ?? (nul < 0 ? null : nulByteAt(nul, name))
  if (bad !== null) return bad
  try {
    if (beginsWithList(bytes)) throw noFhir(name)
    const entries = entriesOf(bytes, name)
    const index = indexOf(entries)
    const rows = entries.flatMap((entry) => rowsOfEntry(entry, index))
    const [patients, results] = [rows.filter(({ kind }) => kind === 'patients'), rows.filter(({ kind }) => kind === 'results')]
    const kind = results.length === 0 ? (patients.length === 0 ? null : 'patients') : patients.length === 0 ? 'results' : null
    return { ok: true, kind, rows: [...patients, ...results] }
  } catch (error) {
    if (error instanceof Refused) return { ok: false, reason: error.reason as 'broken-json', sentence: error.message }
    throw error
  }
}
