import type { OpenTable } from '../table.ts'
import { textIfAny } from './element.ts'
import { Entries } from './entries.ts'
import type { FhirEntry } from './entry.ts'
import { PlaceIndex } from './fileIndex.ts'
import { Growing } from './growing.ts'
import { MOST_ENTRIES } from './keyTable.ts'
import { RowPlaces } from './rowPlaces.ts'
import { mayNotBeOne } from './rowsOfEntry.ts'
import { Unreadable } from './unreadable.ts'
import type { Windows } from './windows.ts'

/** Takes the entries of a file in as they are read, from first to last: where they stand, what they may be called, which rows they are. */
export class TableOfEntries {
  readonly rows: RowPlaces
  private readonly entries: Entries
  private readonly index: PlaceIndex
  private readonly uneven = new Growing()

  constructor(windows: Windows, isBundle: boolean) {
    this.entries = new Entries(windows, isBundle)
    this.index = new PlaceIndex((place) => this.entries.named(place))
    this.rows = new RowPlaces(this.entries, this.index)
  }

  get count(): number {
    return this.entries.count
  }

  /** Throws `Unreadable` where there are too many. */
  add(entry: FhirEntry, from: number, to: number): void {
    const place = this.entries.count
    if (place === MOST_ENTRIES) throw new Unreadable('too-many-entries', from)
    this.entries.add(from, to, entry.line)
    this.index.add(entry, place)
    if (textIfAny(entry.resource, 'resourceType') === 'Patient') this.rows.addPatient(place)
    else this.rows.addResults(place)
    if (entry.resource !== null && mayNotBeOne(entry.resource)) this.uneven.push(place)
  }

  /** The table, once all are in. */
  table(): OpenTable {
    const { rows } = this
    rows.countRows(this.uneven)
    return { ok: true, kind: rows.kind, count: rows.count, rows: () => rows.all(), rowAt: (place) => rows.at(place) }
  }
}
