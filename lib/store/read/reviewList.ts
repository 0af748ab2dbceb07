import { WINDOWS, type Window } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import type { Cell, Connection } from '../connection.ts'
import { inSnapshot } from './snapshot.ts'

/** What one place of the review list needs, as few fields as it shows. */
export interface StandingOnList {
  readonly patientId: string
  /** What stands for the patient in an address. */
  readonly address: string
  readonly familyName: string | null
  readonly givenName: string | null
  readonly clinician: string | null
  readonly window: Window
  readonly since: Day | null
  /** The kept answer as JSON text. */
  readonly answer: string
}

/** Which places to read, in which order. Null filters nothing. */
export interface StandingQuery {
  readonly window: Window | null
  readonly phase: string | null
  readonly clinician: string | null
  readonly rule: string | null
  /** Whose review a correction came after; nobody in particular where it is left out. */
  readonly comesBackTo?: string | null
  /** Only whom something is handed to a physician of; everybody where it is left out. */
  readonly handedOver?: boolean
  /** One patient alone; everybody where it is left out. */
  readonly patientId?: string | null
  readonly sort: 'urgency' | 'waiting' | 'next-due' | 'patient'
  /** The other way round; urgency has no other way. */
  readonly descending: boolean
  /** From 1. */
  readonly page: number
  readonly pageSize: number
}

const SELECT = `SELECT standing.patient_id AS patientId, address, family_name AS familyName, given_name AS givenName, standing.clinician, window, since, answer
  FROM standing JOIN patient ON patient.id = standing.patient_id JOIN patient_address USING (patient_id) WHERE followed = 1`

const URGENCY = 'window_rank, state_rank, organ_rank, since, excess DESC, standing.patient_id'

/** Those without a day come last whichever way round the days are. */
function byDay(column: string, descending: boolean): string {
  return `${column} IS NULL, ${column}${descending ? ' DESC' : ''}, standing.patient_id`
}

function orderOf({ sort, descending }: StandingQuery): string {
  if (sort === 'waiting') return byDay('since', descending)
  if (sort === 'next-due') return byDay('next_due_on', descending)
  return sort === 'patient' ? `standing.patient_id${descending ? ' DESC' : ''}` : URGENCY
}

function filterOf(query: StandingQuery): { readonly sql: string; readonly cells: readonly Cell[] } {
  const { window, phase, clinician, rule, comesBackTo = null, patientId = null } = query
  const parts: { sql: string; cell: Cell }[] = [
    { sql: 'window_rank = ?', cell: window === null ? null : WINDOWS.indexOf(window) },
    { sql: 'phase = ?', cell: phase },
    { sql: 'standing.clinician = ?', cell: clinician },
    {
      sql: 'EXISTS (SELECT 1 FROM standing_finding WHERE standing_finding.patient_id = standing.patient_id AND standing_finding.rule = ?)',
      cell: rule,
    },
    { sql: "EXISTS (SELECT 1 FROM json_each(answer, '$.comesBackTo') WHERE value = ?)", cell: comesBackTo },
    { sql: 'standing.patient_id = ?', cell: patientId },
  ].filter((part) => part.cell !== null)
  if (query.handedOver === true) parts.push({ sql: "json_array_length(answer, '$.handedOver') > ?", cell: 0 })
  return { sql: parts.map((part) => ` AND ${part.sql}`).join(''), cells: parts.map((part) => part.cell) }
}

/** One page of the review list from what is kept, and how many patients match. Nobody is evaluated for it. */
export function standingsPage(connection: Connection, query: StandingQuery): { rows: StandingOnList[]; matching: number } {
  const { sql, cells } = filterOf(query)
  return inSnapshot(connection, () => {
    const page = `${SELECT}${sql} ORDER BY ${orderOf(query)} LIMIT ? OFFSET ?`
    const rows = connection.statement<StandingOnList>(page).all(...cells, query.pageSize, (query.page - 1) * query.pageSize)
    const count = `SELECT count(*) AS matching FROM standing WHERE followed = 1${sql}`
    return { rows, matching: connection.statement<{ matching: number }>(count).get(...cells)?.matching ?? 0 }
  })
}

/** Everybody followed, most urgent first. */
export function standingsInOrder({ statement }: Connection): StandingOnList[] {
  return statement<StandingOnList>(`${SELECT} ORDER BY ${URGENCY}`).all()
}

/** What the filters of the list can take, and how many stand in each window. */
export interface ListFacets {
  readonly byWindow: Readonly<Record<Window, number>>
  readonly followed: number
  readonly phases: readonly string[]
  readonly clinicians: readonly string[]
  readonly rules: readonly string[]
}

function distinct({ statement }: Connection, column: 'phase' | 'clinician'): string[] {
  const sql = `SELECT DISTINCT ${column} AS value FROM standing WHERE followed = 1 AND ${column} IS NOT NULL ORDER BY 1`
  return statement<{ value: string }>(sql)
    .all()
    .map(({ value }) => value)
}

const RULES = `SELECT DISTINCT standing_finding.rule FROM standing_finding JOIN standing USING (patient_id) WHERE followed = 1 ORDER BY 1`

/** The filters' values and the counts of the windows, over everybody followed. */
export function listFacets(connection: Connection): ListFacets {
  return inSnapshot(connection, () => {
    const sql = 'SELECT window_rank AS rank, count(*) AS count FROM standing WHERE followed = 1 GROUP BY window_rank'
    const counts = new Map(
      connection
        .statement<{ rank: number; count: number }>(sql)
        .all()
        .map(({ rank, count }) => [rank, count]),
    )
    const byWindow = Object.fromEntries(WINDOWS.map((window, rank) => [window, counts.get(rank) ?? 0])) as Record<Window, number>
    return {
      byWindow,
      followed: [...counts.values()].reduce((sum, count) => sum + count, 0),
      phases: distinct(connection, 'phase'),
      clinicians: distinct(connection, 'clinician'),
      rules: connection
        .statement<{ rule: string }>(RULES)
        .all()
        .map(({ rule }) => rule),
    }
  })
}
