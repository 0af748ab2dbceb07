import type { RawRow } from './row.ts'
import type { OpenTable } from './table.ts'
import type { TableKind } from './tableKind.ts'

/** A table all of whose rows are in memory, for what is small by its nature. */
export function tableInMemory(kind: TableKind | null, rows: readonly RawRow[]): OpenTable {
  return {
    ok: true,
    kind,
    count: rows.length,
    rows: () => rows,
    rowAt: (place) => {
      const row = rows[place]
      if (row === undefined) throw new RangeError(`There is no row at place ${place}.`)
      return row
    },
  }
}
