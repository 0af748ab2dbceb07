import type { AnswerKind } from '../../results/index.ts'
import { WINDOWS, type Window } from '../../rules/index.ts'
import type { Connection } from '../connection.ts'
import { AMONG, byPatient } from './amongPatients.ts'
import { keptIdIn } from './merges.ts'

/** A round of the review list as stored. Times are UTC, ISO 8601; who ended it and when are null while it runs. */
export interface StoredRound {
  readonly id: number
  readonly startedBy: string
  readonly startedAt: string
  readonly endedBy: string | null
  readonly endedAt: string | null
  /** How many were followed when it ended, and how many of them had something open. */
  readonly followed: number | null
  readonly open: number | null
}

const SELECT = `SELECT id, started_by AS startedBy, started_at AS startedAt, ended_by AS endedBy, ended_at AS endedAt, followed, open
  FROM review_round`

/** One round; null where the number is no round's. */
export function roundById({ statement }: Connection, id: number): StoredRound | null {
  return statement<StoredRound>(`${SELECT} WHERE id = ?`).get(id) ?? null
}

/** The round that runs; null where none does. */
export function runningRound({ statement }: Connection): StoredRound | null {
  return statement<StoredRound>(`${SELECT} WHERE ended_at IS NULL`).get() ?? null
}

/** The latest rounds that ended, latest first. */
export function endedRounds({ statement }: Connection, count: number): StoredRound[] {
  return statement<StoredRound>(`${SELECT} WHERE ended_at IS NOT NULL ORDER BY id DESC LIMIT ?`).all(count)
}

/** How many patients stood in each window, and how many of them had something open. */
export interface WindowCounts {
  readonly followed: number
  readonly open: number
  readonly byWindow: Readonly<Record<Window, number>>
}

type Counted = { readonly rank: number; readonly followed: number; readonly open: number }

function countsOf(rows: readonly Counted[]): WindowCounts {
  const at = new Map(rows.map((row) => [row.rank, row]))
  return {
    followed: rows.reduce((sum, row) => sum + row.followed, 0),
    open: rows.reduce((sum, row) => sum + row.open, 0),
    byWindow: Object.fromEntries(WINDOWS.map((window, rank) => [window, at.get(rank)?.open ?? 0])) as Record<Window, number>,
  }
}

const AT_END = `SELECT window_rank AS rank, count(*) AS followed,
  sum(CASE WHEN EXISTS (SELECT 1 FROM round_finding WHERE round_id = place.round_id AND patient_id = place.patient_id) THEN 1 ELSE 0 END) AS open
  FROM round_place AS place WHERE round_id = ? GROUP BY window_rank`
const NOW = 'SELECT window_rank AS rank, count(*) AS followed, count(since) AS open FROM standing WHERE followed = 1 GROUP BY window_rank'

/** Where everybody stood when a round ended, counted; those with nothing open are in none of the windows. */
export function countsAtEnd({ statement }: Connection, roundId: number): WindowCounts {
  return countsOf(statement<Counted>(AT_END).all(roundId))
}

/** The same as the list stands now. */
export function countsNow({ statement }: Connection): WindowCounts {
  return countsOf(statement<Counted>(NOW).all())
}

/** What was done about a finding in a span of time: a review, its kind where it has one, or a handover. */
export interface AnswerMade {
  /** The record it is read in today. */
  readonly patientId: string
  readonly findingKey: string
  readonly did: AnswerKind | null
  readonly by: string
}

const ANSWERS = `SELECT ${keptIdIn('decision')} AS patientId, finding_key AS findingKey,
    CASE kind WHEN 'handover' THEN 'handed-to-physician' ELSE did END AS did, made_by AS "by"
  FROM decision WHERE made_at >= ? AND made_at <= ? AND kind IN ('review', 'handover')
    AND NOT EXISTS (SELECT 1 FROM decision AS back WHERE back.answer_id = decision.id AND back.made_at <= ?) ORDER BY id`

/** Reviews and handovers made in a span of time and not taken back in it, first one first. */
export function answersBetween({ statement }: Connection, from: string, to: string): AnswerMade[] {
  return statement<AnswerMade>(ANSWERS).all(from, to, to)
}

const OPENED = `SELECT count(DISTINCT patient_id) AS count FROM trail INDEXED BY trail_at WHERE at >= ? AND at <= ? AND action = 'patient-opened'`

/** How many patients' pages somebody opened in a span of time, by the log. */
export function patientsOpened({ statement }: Connection, from: string, to: string): number {
  return statement<{ count: number }>(OPENED).get(from, to)?.count ?? 0
}

interface OpenKey {
  readonly patientId: string
  readonly key: string
}

const KEYS_NOW = `SELECT patient_id AS patientId, key FROM standing_open JOIN standing USING (patient_id) WHERE ${AMONG} AND followed = 1`
const KEYS_THEN = `SELECT patient_id AS patientId, key FROM round_finding WHERE ${AMONG} AND round_id = ?`

/** The keys of what is open of these patients: now, or when a round ended. */
export function openKeys({ statement }: Connection, patientIds: readonly string[], endOf: number | null): ReadonlyMap<string, readonly string[]> {
  const asked = JSON.stringify(patientIds)
  const rows = endOf === null ? statement<OpenKey>(KEYS_NOW).all(asked) : statement<OpenKey>(KEYS_THEN).all(asked, endOf)
  return new Map([...byPatient(patientIds, rows)].map(([patientId, open]) => [patientId, open.map(({ key }) => key)]))
}
