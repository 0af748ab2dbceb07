import type { MarkedNumber } from '../marked.ts'

/** A published table: its heads, and its rows from the constants the model computes with. */
export interface ModelTable {
  readonly caption: string
  readonly head: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** What a person should know of a model before relying on it. */
export interface ModelPage {
  readonly title: string
  readonly asks: string
  /** Which patients, in words. */
  readonly runsIn: string
  readonly source: string
  readonly tables: readonly ModelTable[]
  /** Numbers beside those of the tables, and marks that hold for a whole table. */
  readonly numbers: readonly MarkedNumber[]
  readonly how: readonly string[]
  readonly cannotSee: readonly string[]
  /** What else can move its answer; common practice, no list to tick off. */
  readonly elseCauses: readonly string[]
  /** Where another model asks the same and may answer otherwise; null where none does. */
  readonly beside: string | null
}
