import type { RawRow } from '../row.ts'
import type { TableKind } from '../tableKind.ts'
import type { Entries } from './entries.ts'
import type { FileIndex } from './fileIndex.ts'
import { Growing } from './growing.ts'
import { rowsOfEntry } from './rowsOfEntry.ts'

/** The rows of a file by their place in the order of filing: patients, one row each, then results, an entry of which may have several, or none. */
export class RowPlaces {
  private readonly patients = new Growing()
  private readonly results = new Growing()
  /** For each entry of results the place of its first row, counted from the first result. */
  private readonly first = new Growing()
  private resultRows = 0
  private readonly entries: Entries
  private readonly index: FileIndex
  private last: { readonly at: number; readonly rows: readonly RawRow[] } = { at: -1, rows: [] }

  constructor(entries: Entries, index: FileIndex) {
    this.entries = entries
    this.index = index
  }

  addPatient(place: number): void {
    this.patients.push(place)
  }

  addResults(place: number): void {
    this.results.push(place)
  }

  /** Counts the rows once all entries are known: those of `uneven` by making them, for what they name decides how many they are; of any other entry one. */
  countRows(uneven: Growing): void {
    let next = 0
    for (let at = 0; at < this.results.length; at++) {
      const place = this.results.at(at)
      const isUneven = next < uneven.length && uneven.at(next) === place
      if (isUneven) next++
      this.first.push(this.resultRows)
      this.resultRows += isUneven ? this.made(place).length : 1
    }
  }

  get count(): number {
    return this.patients.length + this.resultRows
  }

  get kind(): TableKind | null {
    if (this.results.length === 0) return this.patients.length === 0 ? null : 'patients'
    return this.patients.length === 0 ? 'results' : null
  }

  *all(): Generator<RawRow> {
    for (let at = 0; at < this.patients.length; at++) yield* this.made(this.patients.at(at))
    for (let at = 0; at < this.results.length; at++) yield* this.made(this.results.at(at))
  }

  at(place: number): RawRow {
    if (!Number.isInteger(place) || place < 0 || place >= this.count) throw new RangeError(`There is no row at place ${place}.`)
    const row = place < this.patients.length ? this.made(this.patients.at(place))[0] : this.result(place - this.patients.length)
    if (row === undefined) throw new Error('The file changed while it was read.')
    return row
  }

  private result(place: number): RawRow | undefined {
    const at = this.first.lastUpTo(place)
    if (this.last.at !== at) this.last = { at, rows: this.made(this.results.at(at)) }
    return this.last.rows[place - this.first.at(at)]
  }

  private made(place: number): readonly RawRow[] {
    return rowsOfEntry(this.entries.next(place), this.index)
  }
}
