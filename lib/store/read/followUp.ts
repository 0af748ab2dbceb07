import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'

/** A row that came into the held queue: on which of the clinic's days, and the instant (UTC) at which somebody decided on it. */
export interface HeldSpan {
  readonly receivedOn: Day
  readonly resolvedAt: string | null
}

/** Rows that came into the held queue from one day to another, both included. */
export function heldBetween({ statement }: Connection, from: Day, to: Day): HeldSpan[] {
  const sql = 'SELECT received_on AS receivedOn, resolved_at AS resolvedAt FROM held_row WHERE received_on BETWEEN ? AND ? ORDER BY id'
  return statement<HeldSpan>(sql).all(from, to)
}

/** How many results of one collection day one file brought first; the file came at an instant (UTC). */
export interface Arrived {
  readonly collectedOn: Day
  readonly receivedAt: string
  readonly results: number
}

/** First versions of results collected from one day to another, both included, by file and collection day. Reads every result. */
export function arrivedBetween({ statement }: Connection, from: Day, to: Day): Arrived[] {
  const sql = `SELECT collected_on AS collectedOn, intake_file.received_at AS receivedAt, results FROM
    (SELECT file_id, collected_on, count(*) AS results FROM result WHERE version = 1 AND collected_on BETWEEN ? AND ? GROUP BY file_id, collected_on) AS arrived
    JOIN intake_file ON intake_file.id = file_id`
  return statement<Arrived>(sql).all(from, to)
}

/**
 * How many changes the data have seen: of patients, their histories and their rows, the held queue, and the plan. Every change makes it greater and nothing else
 * does, a look at a page neither, so that two answers of one number are of one state.
 */
export function dataRevision({ statement }: Connection): number {
  const sql = `SELECT (SELECT coalesce(sum(revision + version), 0) FROM patient) + (SELECT count(*) FROM held_row)
    + (SELECT count(*) FROM held_row WHERE resolved_at IS NOT NULL) + (SELECT count(*) FROM plan_version WHERE state = 'published') AS revision`
  return statement<{ revision: number }>(sql).get()?.revision ?? 0
}
