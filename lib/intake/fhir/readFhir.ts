import { faultOfBytes, notUtf8, type RefusedFile, refusedFile } from '../fileBytes.ts'
import { compactText } from '../json/compactText.ts'
import { isObject, type JsonObject } from '../json/json.ts'
import { parseJson } from '../json/parseJson.ts'
import type { ReadTable } from '../table.ts'
import { bundleEntries } from './bundle.ts'
import { textIfAny } from './element.ts'
import type { FhirEntry } from './entry.ts'
import { faultOfJson } from './faultOfJson.ts'
import { fileIndex } from './fileIndex.ts'
import { decoded, isBlank, lineEnd, ndjsonEntries } from './ndjson.ts'
import { rowsOfEntry } from './rowsOfEntry.ts'

const BLANK = [0x20, 0x09, 0x0d, 0x0a]
const MARK = [0xef, 0xbb, 0xbf]

/** The first byte that says something, behind a byte order mark and blanks. */
function beginOf(bytes: Uint8Array): number {
  let at = MARK.every((byte, index) => bytes[index] === byte) ? MARK.length : 0
  while (at < bytes.length && BLANK.includes(bytes[at] ?? 0)) at++
  return at
}

/** Whether a file begins with a JSON object or list; no other format that is read does. */
export function beginsLikeJson(bytes: Uint8Array): boolean {
  const first = bytes[beginOf(bytes)]
  return first === 0x7b || first === 0x5b
}

const noFhir = (fileName: string): RefusedFile =>
  refusedFile('unknown-json', `${fileName} is JSON but no FHIR: it needs a Bundle, or one resource on each line, each with its resourceType.`)

function entriesOfDocument(document: JsonObject, source: string, line: number, fileName: string): readonly FhirEntry[] | RefusedFile {
  const type = textIfAny(document, 'resourceType')
  if (type === '') return noFhir(fileName)
  if (type === 'Bundle') return bundleEntries(document, source, fileName)
  return [{ line, text: compactText(source), fullUrl: '', resource: document, why: '' }]
}

/** A file is one JSON document, or NDJSON where its first line is a whole one and more follows. */
function entriesOf(bytes: Uint8Array, fileName: string): readonly FhirEntry[] | RefusedFile {
  const start = beginOf(bytes)
  const end = lineEnd(bytes, start)
  const first = parseJson(decoded(bytes.subarray(start, end)) ?? '')
  const line = 1 + bytes.subarray(0, start).filter((byte) => byte === 0x0a).length
  if (first.ok && !isBlank(bytes.subarray(end))) {
    return isObject(first.value) && textIfAny(first.value, 'resourceType') !== '' ? ndjsonEntries(bytes, start, fileName) : noFhir(fileName)
  }
  const source = decoded(bytes.subarray(start))
  if (source === null) return notUtf8(bytes, fileName)
  const whole = first.ok ? first : parseJson(source)
  if (!whole.ok) return faultOfJson(whole, source, { line, byte: start }, fileName)
  return isObject(whole.value) ? entriesOfDocument(whole.value, source, line, fileName) : noFhir(fileName)
}

/** A file is held in memory, at some twenty times its size: more than this would end the process. */
const MOST_MIB = 100

function tooLarge({ length }: Uint8Array, fileName: string): RefusedFile | null {
  if (length <= MOST_MIB * 1024 * 1024) return null
  return refusedFile(
    'file-too-large',
    `${fileName} has ${length} bytes; a FHIR file may have at most ${MOST_MIB} MiB. Send its entries in several files.`,
  )
}

/**
 * Reads FHIR R4: a Bundle, a single resource, or NDJSON with a resource on each line. Every entry is at least one row: a Patient one of `patients`, an
 * Observation and each of its components one of `results`, anything else a refused row with its reason. Patients come first. Never throws.
 */
export function readFhir(bytes: Uint8Array, fileName: string): ReadTable {
  const fault = tooLarge(bytes, fileName) ?? faultOfBytes(bytes, fileName)
  if (fault !== null) return fault
  const entries = entriesOf(bytes, fileName)
  if ('ok' in entries) return entries
  const index = fileIndex(entries)
  const rows = entries.flatMap((entry) => rowsOfEntry(entry, index))
  const [patients, results] = [rows.filter(({ kind }) => kind === 'patients'), rows.filter(({ kind }) => kind === 'results')]
  const kind = results.length === 0 ? (patients.length === 0 ? null : 'patients') : patients.length === 0 ? 'results' : null
  return { ok: true, kind, rows: [...patients, ...results] }
}
