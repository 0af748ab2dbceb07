import type { RefusedFile } from './fileBytes.ts'
import type { RawRow } from './row.ts'
import type { TableKind } from './tableKind.ts'

/** A file as read: refused whole with its reason, or every one of its rows. `kind` is that of all its rows, null where they are of several kinds or none. */
export type ReadTable = RefusedFile | { readonly ok: true; readonly kind: TableKind | null; readonly rows: readonly RawRow[] }

/** A file of whose rows only the places are kept: read once to the end, so that it is certain that it can be read, and again row by row as they are filed. */
export type OpenTable =
  | RefusedFile
  | {
      readonly ok: true
      readonly kind: TableKind | null
      /** How many rows there are. */
      readonly count: number
      /** All rows from first to last, patients before results. */
      readonly rows: () => Iterable<RawRow>
      /** One of them, by its place in that order from 0. Cheapest where the places asked for ascend. */
      readonly rowAt: (place: number) => RawRow
    }
