import { type Actor, nextRow, shownPatients, type TrailEvent, type TrailRow } from '../../trail/index.ts'
import type { Cell, Connection } from '../connection.ts'
import { trailHead } from '../read/trail.ts'
import { insertSql } from './insert.ts'

const COLUMNS = {
  sequence: 'sequence',
  at: 'at',
  actor: 'actor',
  role: 'role',
  session_hash: 'sessionHash',
  address: 'address',
  action: 'action',
  outcome: 'outcome',
  purpose: 'purpose',
  patient_id: 'patientId',
  object: 'object',
  object_version: 'objectVersion',
  request_id: 'requestId',
  before_hash: 'beforeHash',
  after_hash: 'afterHash',
  event: 'event',
  previous_hash: 'previousHash',
  hash: 'hash',
} as const satisfies Readonly<Record<string, keyof TrailRow>>

const APPEND = insertSql('trail', Object.keys(COLUMNS))
// All in one statement: on a server each is a journey.
const SHOWN = 'INSERT INTO trail_shown (patient_id, sequence) SELECT value, ? FROM json_each(?)'

/** Appends the log rows of a change, chained to the last one, each with whom it shows. Called inside the change's own transaction, under the write lock. */
export function appendTrail(connection: Connection, call: { readonly actor: Actor; readonly now: string }, events: readonly TrailEvent[]): void {
  let head = trailHead(connection)
  for (const event of events) {
    const row = nextRow(head, call, event)
    connection.statement(APPEND).run(...Object.values(COLUMNS).map((field): Cell => row[field]))
    const shown = shownPatients(event)
    if (shown.length > 0) connection.statement(SHOWN).run(row.sequence, JSON.stringify(shown))
    head = row
  }
}
