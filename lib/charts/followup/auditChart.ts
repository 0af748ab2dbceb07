import type { Figures } from '../../followup/index.ts'

/** A table of what a chart shows, as text. `figures` names the columns of numbers. */
export interface AuditTable {
  readonly caption: string
  readonly columns: readonly string[]
  readonly figures: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** A chart of the follow-up audit before it is a picture. */
export interface AuditChart<Picture> {
  readonly id: 'on-time' | 'run' | 'review' | 'second' | 'lateness'
  readonly title: string
  /** What the chart says, in one sentence. */
  readonly sentence: string
  /** What it rests on, and what to hold against it. */
  readonly notes: readonly string[]
  /** Null where there is too little to draw: the sentence says so. */
  readonly picture: Picture | null
  /** Null where there is no number. */
  readonly table: AuditTable | null
}

/** The numbers of a chart for a file: columns, each with its name and what stands in it, and rows. */
export interface ChartFile<Row> {
  readonly columns: readonly (readonly [name: string, cellOf: (row: Row) => string | number | null])[]
  readonly rows: readonly Row[]
}

/** What the charts of months are drawn from. */
export type MonthFigures = Pick<Figures, 'from' | 'to' | 'chart' | 'onTime' | 'pending' | 'planChanges'>

/** A place on an axis: 0 at its beginning, 100 at its end; and what stands there. */
export interface Tick {
  readonly at: number
  readonly label: string
}
