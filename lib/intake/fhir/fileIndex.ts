import type { JsonObject } from '../json/json.ts'
import { changedMeaning } from './changedMeaning.ts'
import { objectsIfAny, textIfAny } from './element.ts'
import type { FhirEntry } from './entry.ts'

/** The resources of a file by what references may call them. */
export interface FileIndex {
  /**
   * The resources a reference of `from` may mean: one contained in it, one with that full URL, or one of that type and id whose own address does not
   * differ. None where it points outside the file.
   */
  readonly find: (reference: string, from: JsonObject) => readonly JsonObject[]
  /** The reports that name an Observation among their results, but for those that are refused. */
  readonly reportsOf: (observation: JsonObject) => readonly JsonObject[]
}

const TYPE_AND_ID = /(?:^|\/)([A-Z][A-Za-z]+)\/([A-Za-z0-9.-]{1,64})(?:\/_history\/[A-Za-z0-9.-]{1,64})?$/

/** The type and id a reference ends in, as `Patient/123`; null where it has none (`urn:uuid:...`, `#p`). */
export function typeAndId(reference: string): { readonly type: string; readonly id: string } | null {
  const [, type, id] = TYPE_AND_ID.exec(reference) ?? []
  return type === undefined || id === undefined ? null : { type, id }
}

const isAddress = (url: string): boolean => /^https?:/i.test(url)
const withoutVersion = (url: string): string => url.replace(/\/_history\/[^/]*$/, '')

function add<Key, Value>(to: Map<Key, Value[]>, key: Key, value: Value): void {
  const values = to.get(key)
  if (values === undefined) to.set(key, [value])
  else values.push(value)
}

/** Indexes a file; lenient, for what is wrong with a resource is told where its rows are made. */
export function fileIndex(entries: readonly FhirEntry[]): FileIndex {
  const byUrl = new Map<string, JsonObject[]>()
  const byId = new Map<string, { readonly resource: JsonObject; readonly fullUrl: string }[]>()
  for (const { resource, fullUrl } of entries) {
    if (resource === null) continue
    if (fullUrl !== '') add(byUrl, withoutVersion(fullUrl), resource)
    const id = textIfAny(resource, 'id')
    if (id !== '') add(byId, `${textIfAny(resource, 'resourceType')}/${id}`, { resource, fullUrl })
  }
  const find = (reference: string, from: JsonObject): readonly JsonObject[] => {
    if (reference === '#') return []
    if (reference.startsWith('#')) return objectsIfAny(from, 'contained').filter((one) => textIfAny(one, 'id') === reference.slice(1))
    const named = byUrl.get(withoutVersion(reference))
    if (named !== undefined) return named
    const tail = typeAndId(reference)
    if (tail === null) return []
    return (byId.get(`${tail.type}/${tail.id}`) ?? [])
      .filter(({ fullUrl }) => !isAddress(reference) || !isAddress(fullUrl))
      .map(({ resource }) => resource)
  }
  const reports = new Map<JsonObject, JsonObject[]>()
  for (const { resource } of entries) {
    if (resource === null || textIfAny(resource, 'resourceType') !== 'DiagnosticReport' || changedMeaning(resource) !== null) continue
    for (const reference of objectsIfAny(resource, 'result')) {
      for (const result of find(textIfAny(reference, 'reference'), resource)) add(reports, result, resource)
    }
  }
  return { find, reportsOf: (observation) => reports.get(observation) ?? [] }
}
