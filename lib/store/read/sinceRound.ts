import type { News } from '../../review/index.ts'
import { WINDOWS, type Window } from '../../rules/index.ts'
import type { Connection } from '../connection.ts'
import { AMONG, byPatient } from './amongPatients.ts'

/** Goes before a statement that compares with the end of a round: its first parameter is the round's number. */
export const BASE = 'WITH base (id) AS (SELECT CAST(? AS BIGINT)) '
const ROUND = '(SELECT id FROM base)'

const WAS_OPEN = `EXISTS (SELECT 1 FROM round_finding AS was WHERE was.round_id = ${ROUND} AND was.patient_id = now.patient_id AND was.key = now.key)`
const TOPIC_WAS_OPEN = `EXISTS (SELECT 1 FROM round_finding AS was WHERE was.round_id = ${ROUND} AND was.patient_id = now.patient_id AND was.topic = now.topic)`
const IS_NEW = `NOT ${WAS_OPEN}`
const IS_BACK = `answered_at IS NOT NULL AND (answered_at > (SELECT ended_at FROM review_round WHERE id = ${ROUND}) OR NOT ${TOPIC_WAS_OPEN})`

/** For a query over `standing` that begins with `BASE`: those a filter leaves. */
export const NEWS_FILTER: Readonly<Record<News, string>> = {
  new: `standing.patient_id IN (SELECT patient_id FROM standing_open AS now WHERE ${IS_NEW})`,
  'came-back': `standing.patient_id IN (SELECT patient_id FROM standing_open AS now WHERE ${IS_BACK})`,
  waiting: `since IS NOT NULL AND standing.patient_id NOT IN (SELECT patient_id FROM standing_open AS now WHERE ${IS_NEW} OR (${IS_BACK}))`,
}

/** How many patients are what since a round ended. Who came back is mostly new too: `either` counts each once. */
export interface NewsCounts {
  readonly open: number
  readonly isNew: number
  readonly cameBack: number
  readonly either: number
}

// Joined: over everybody, a server that looks each finding up by itself takes ten times as long.
const COUNTS = `${BASE}SELECT count(*) AS open, coalesce(sum(is_new), 0) AS isNew, coalesce(sum(is_back), 0) AS cameBack,
  coalesce(sum(CASE WHEN is_new = 1 OR is_back = 1 THEN 1 ELSE 0 END), 0) AS either
  FROM (SELECT max(CASE WHEN was.key IS NULL THEN 1 ELSE 0 END) AS is_new, max(CASE WHEN ${IS_BACK} THEN 1 ELSE 0 END) AS is_back
    FROM standing_open AS now LEFT JOIN round_finding AS was ON was.round_id = ${ROUND} AND was.patient_id = now.patient_id AND was.key = now.key
    GROUP BY now.patient_id) AS each_patient`

/** Counts everybody followed who has something open, against the end of a round. */
export function newsCounts({ statement }: Connection, roundId: number): NewsCounts {
  return statement<NewsCounts>(COUNTS).get(roundId) ?? { open: 0, isNew: 0, cameBack: 0, either: 0 }
}

/** How many followed patients have something open. */
export function countOpen({ statement }: Connection): number {
  return statement<{ open: number }>('SELECT count(*) AS open FROM standing WHERE followed = 1 AND since IS NOT NULL').get()?.open ?? 0
}

/** What is another than when a round ended, of one patient. */
export interface SinceRound {
  readonly isNew: boolean
  /** Why what a review answered is open again, each reason once; empty where nothing came back. */
  readonly back: readonly ('day' | 'evidence' | 'corrected')[]
  /** Where the patient stood then; null where they were not followed then. */
  readonly windowThen: Window | null
}

interface FindingNow {
  readonly patientId: string
  readonly isNew: number
  readonly back: SinceRound['back'][number] | null
}

const FINDINGS = `${BASE}SELECT patient_id AS patientId, ${IS_NEW} AS isNew, CASE WHEN ${IS_BACK} THEN back END AS back FROM standing_open AS now WHERE ${AMONG}`
const PLACES = `SELECT patient_id AS patientId, window_rank AS rank FROM round_place WHERE round_id = ? AND ${AMONG}`

/** What is another with each of these patients than when a round ended. */
export function sinceRound({ statement }: Connection, roundId: number, patientIds: readonly string[]): ReadonlyMap<string, SinceRound> {
  const asked = JSON.stringify(patientIds)
  const findings = byPatient(patientIds, statement<FindingNow>(FINDINGS).all(roundId, asked))
  const places = statement<{ patientId: string; rank: number }>(PLACES).all(roundId, asked)
  const rankThen = new Map(places.map(({ patientId, rank }) => [patientId, rank]))
  const sinceOf = (patientId: string, open: readonly FindingNow[]): SinceRound => {
    const rank = rankThen.get(patientId)
    return {
      isNew: open.some(({ isNew }) => isNew === 1),
      back: [...new Set(open.flatMap(({ back }) => back ?? []))].toSorted(),
      windowThen: rank === undefined ? null : (WINDOWS[rank] ?? null),
    }
  }
  return new Map([...findings].map(([patientId, open]) => [patientId, sinceOf(patientId, open)]))
}
