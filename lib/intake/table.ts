import type { RefusedFile } from './fileBytes.ts'
import type { RawRow } from './row.ts'
import type { TableKind } from './tableKind.ts'

/** A file as read: refused whole with its reason, or every one of its rows. `kind` is that of all its rows, null where they are of several kinds or none. */
export type ReadTable = RefusedFile | { readonly ok: true; readonly kind: TableKind | null; readonly rows: readonly RawRow[] }
