import type { TrailEvent } from '../../trail/index.ts'
import type { Connection } from '../connection.ts'

/** Numbers of all files, in the order they came. */
export function fileNumbers({ statement }: Connection): number[] {
  return statement<{ id: number }>('SELECT id FROM intake_file ORDER BY id')
    .all()
    .map(({ id }) => id)
}

/** A decision as the log has it: its number, whose it is, and the SHA-256 of what was decided. */
export interface LoggedDecision {
  readonly decisionId: number
  readonly patientId: string
  readonly after: string
}

/** A change of a course as the log has it. */
export interface LoggedChange {
  readonly changeId: number
  readonly after: string
}

// What an entry is about stands in its object, so that no entry of another kind is read.
function eventsAbout({ statement }: Connection, ...objects: readonly string[]): TrailEvent[] {
  const sql = `SELECT event FROM trail WHERE ${objects.map(() => 'object LIKE ?').join(' OR ')} ORDER BY sequence`
  return statement<{ event: string }>(sql)
    .all(...objects.map((object) => `${object} %`))
    .map(({ event }) => JSON.parse(event) as TrailEvent)
}

/** Every decision the log tells of, and whether the log still begins with its first row: what stood before that can no longer be compared. */
export function loggedDecisions(connection: Connection): { readonly decisions: readonly LoggedDecision[]; readonly fromTheFirst: boolean } {
  const first = connection.statement<{ first: number | null }>('SELECT min(sequence) AS first FROM trail').get()?.first ?? null
  return {
    decisions: eventsAbout(connection, 'decision', 'result').flatMap((event) =>
      'decisionId' in event ? [{ decisionId: event.decisionId, patientId: event.patientId, after: event.after }] : [],
    ),
    fromTheFirst: first === null || first === 1,
  }
}

/** Every change of a course the log tells of. */
export function loggedChanges(connection: Connection): readonly LoggedChange[] {
  return eventsAbout(connection, 'course change').flatMap((event) => ('changeId' in event ? [{ changeId: event.changeId, after: event.after }] : []))
}
