import type { Connection } from '../connection.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

/** A version to be kept: the first of a new view (`id` null), or the next of one there is. */
export interface NewView {
  readonly id: number | null
  readonly name: string
  readonly ownerId: number | null
  readonly asks: string
  readonly removed: boolean
  readonly by: string
  readonly at: string
}

const INSERT = insertSql('saved_view', ['id', 'version', 'name', 'owner_id', 'asks', 'removed', 'made_by', 'made_at'])

/** Keeps a version of a saved view and returns its numbers. */
export function insertView(connection: Connection, view: NewView): { readonly id: number; readonly version: number } {
  const id = view.id ?? nextId(connection, 'saved_view')
  const { version = 1 } = connection.statement<{ version: number }>('SELECT max(version) + 1 AS version FROM saved_view WHERE id = ?').get(id) ?? {}
  const next = version ?? 1
  connection.statement(INSERT).run(id, next, view.name, view.ownerId, view.asks, Number(view.removed), view.by, view.at)
  return { id, version: next }
}
