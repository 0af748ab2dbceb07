import type { JsonObject } from '../json/json.ts'
import { changedMeaning } from './changedMeaning.ts'
import { objectsIfAny, textIfAny } from './element.ts'
import type { FhirEntry } from './entry.ts'
import { KeyTable } from './keyTable.ts'
import { mayBeAt, meansContained, namesOf, typeAndId, withoutVersion } from './reference.ts'

/** Whom a reference means: a patient_id, null for nobody, or what is wrong with it. */
export type Subject = { readonly id: string | null } | { readonly fault: unknown }

/** The resources of a file by what references may call them. */
export interface FileIndex {
  /**
   * The resources a reference of `from` may mean, read one by one: one contained in it, one with that full URL, or one of that type and id whose own
   * address does not differ. None where it points outside the file.
   */
  readonly find: (reference: string, from: JsonObject) => Iterable<JsonObject>
  /** The first report that names an Observation of the file among its results, but for those that are refused; null where none does. */
  readonly reportOf: (entry: FhirEntry) => JsonObject | null
  /** Whom references meant, as far as that was asked before: finding out may take many resources. */
  readonly subjects: Map<string, Subject>
}

const urlKey = (url: string): string => `u${url}`
const typeKey = (typeId: string): string => `t${typeId}`

const resultsOf = (report: JsonObject): readonly string[] => objectsIfAny(report, 'result').map((one) => textIfAny(one, 'reference'))

/** The index of a file of which no resource is kept: their names lead to places, and `load` reads what stands there. */
export class PlaceIndex implements FileIndex {
  readonly subjects = new Map<string, Subject>()
  private readonly resources = new KeyTable()
  private readonly reports = new KeyTable()
  private readonly load: (place: number) => FhirEntry

  constructor(load: (place: number) => FhirEntry) {
    this.load = load
  }

  /** Lenient, for what is wrong with a resource is told where its rows are made. */
  add(entry: FhirEntry, place: number): void {
    const { resource } = entry
    if (resource === null) return
    const { url, typeId } = namesOf(entry)
    if (url !== null) this.resources.add(urlKey(url), place)
    if (typeId !== null) this.resources.add(typeKey(typeId), place)
    if (textIfAny(resource, 'resourceType') !== 'DiagnosticReport' || changedMeaning(resource) !== null) return
    for (const reference of resultsOf(resource)) {
      if (reference.startsWith('#')) continue
      const tail = typeAndId(reference)
      this.reports.add(urlKey(withoutVersion(reference)), place)
      if (tail !== null) this.reports.add(typeKey(`${tail.type}/${tail.id}`), place)
    }
  }

  *find(reference: string, from: JsonObject): Generator<JsonObject> {
    if (reference.startsWith('#')) {
      yield* objectsIfAny(from, 'contained').filter((one) => meansContained(reference, one))
      return
    }
    const url = withoutVersion(reference)
    let isNamed = false
    for (const entry of this.entriesOf(urlKey(url), (one) => namesOf(one).url === url)) {
      isNamed = true
      if (entry.resource !== null) yield entry.resource
    }
    const tail = isNamed ? null : typeAndId(reference)
    if (tail === null) return
    const typeId = `${tail.type}/${tail.id}`
    for (const { resource } of this.entriesOf(typeKey(typeId), (one) => namesOf(one).typeId === typeId && mayBeAt(reference, one.fullUrl))) {
      if (resource !== null) yield resource
    }
  }

  reportOf(entry: FhirEntry): JsonObject | null {
    const { url, typeId } = namesOf(entry)
    const places = [...(url === null ? [] : this.reports.placesOf(urlKey(url))), ...(typeId === null ? [] : this.reports.placesOf(typeKey(typeId)))]
    for (const place of places.sort((a, b) => a - b)) {
      const report = this.load(place).resource
      if (report !== null && resultsOf(report).some((reference) => this.means(reference, entry))) return report
    }
    return null
  }

  private means(reference: string, entry: FhirEntry): boolean {
    const { url, typeId } = namesOf(entry)
    const named = withoutVersion(reference)
    if (reference.startsWith('#')) return false
    if (url === named) return true
    const tail = typeAndId(reference)
    if (tail === null || typeId !== `${tail.type}/${tail.id}` || !mayBeAt(reference, entry.fullUrl)) return false
    // Another resource whose full URL it is would be what it means.
    const [other] = this.entriesOf(urlKey(named), (one) => namesOf(one).url === named)
    return other === undefined
  }

  private *entriesOf(key: string, isIt: (entry: FhirEntry) => boolean): Generator<FhirEntry> {
    for (const place of this.resources.placesOf(key)) {
      const entry = this.load(place)
      if (isIt(entry)) yield entry
    }
  }
}
