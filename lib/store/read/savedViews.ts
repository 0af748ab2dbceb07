import type { Connection } from '../connection.ts'

/** A version of a way of looking at the list, under a name. Times are UTC, ISO 8601. */
export interface StoredView {
  readonly id: number
  readonly version: number
  readonly name: string
  /** Null: the whole clinic has it. */
  readonly owner: string | null
  /** What the list is asked, as JSON text. */
  readonly asks: string
  readonly removed: boolean
  readonly by: string
  readonly at: string
}

type Columns = Omit<StoredView, 'removed'> & { readonly removed: number }

const LATEST = `SELECT saved_view.id, version, saved_view.name, account.name AS owner, asks, removed, made_by AS "by", made_at AS at
  FROM saved_view LEFT JOIN account ON account.id = owner_id
  WHERE version = (SELECT max(version) FROM saved_view AS latest WHERE latest.id = saved_view.id)`

const viewOf = (row: Columns): StoredView => ({ ...row, removed: row.removed === 1 })

/** The last version of a saved view, also of a removed one; null where the number is none's. */
export function savedView({ statement }: Connection, id: number): StoredView | null {
  const row = statement<Columns>(`${LATEST} AND saved_view.id = ?`).get(id)
  return row === undefined ? null : viewOf(row)
}

/** The last version of every saved view that is not removed, those of the clinic and of everybody, by name. */
export function savedViews({ statement }: Connection): StoredView[] {
  return statement<Columns>(`${LATEST} AND removed = 0 ORDER BY saved_view.name COLLATE NOCASE, saved_view.id`).all().map(viewOf)
}
