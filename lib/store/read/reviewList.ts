import type { News } from '../../review/index.ts'
import { WINDOWS, type Window } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import type { Cell, Connection } from '../connection.ts'
import { BASE, NEWS_FILTER } from './sinceRound.ts'

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
  /** Since when the longest waiting of the open findings has been on the list; left out for a day of the past. */
  readonly seenOn?: Day | null
  /** Who has the patient, and whether that account is disabled; null where nobody has. */
  readonly assignedTo?: string | null
  readonly assignedDisabled?: number | null
  /** The number of the last assignment, also of one to nobody; null where there never was one. */
  readonly assignmentId?: number | null
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
  /** What is another than when the round of this number ended; everybody where one of the two is left out. */
  readonly news?: News | null
  readonly sinceRound?: number | null
  /** Whom the account of this number has, or nobody has. */
  readonly assigned?: number | 'nobody' | null
  /** `waiting`: since the sample behind the finding at the top. `listed`: since the longest waiting of the open findings was first on the list. */
  readonly sort: 'urgency' | 'waiting' | 'listed' | 'next-due' | 'patient'
  /** The other way round; urgency has no other way. */
  readonly descending: boolean
  /** From 1. */
  readonly page: number
  readonly pageSize: number
}

const SELECT = `SELECT standing.patient_id AS patientId, address, family_name AS familyName, given_name AS givenName, standing.clinician, window, since, answer,
  seen_on AS seenOn, account.name AS assignedTo, account.disabled_at IS NOT NULL AS assignedDisabled,
  (SELECT max(id) FROM assignment WHERE assignment.patient_id = standing.patient_id) AS assignmentId
  FROM standing JOIN patient ON patient.id = standing.patient_id JOIN patient_address USING (patient_id)
  LEFT JOIN assigned ON assigned.patient_id = standing.patient_id LEFT JOIN account ON account.id = assigned.account_id`

const ROWS = `${SELECT} WHERE standing.patient_id IN (SELECT value FROM json_each(?))`

const URGENCY = 'window_rank, state_rank, organ_rank, since NULLS FIRST, excess DESC, standing.patient_id'

/** Those without a day come last whichever way round the days are. */
function byDay(column: string, descending: boolean): string {
  return `${column} IS NULL, ${column}${descending ? ' DESC' : ''}, standing.patient_id`
}

function orderOf({ sort, descending }: StandingQuery): string {
  if (sort === 'waiting') return byDay('since', descending)
  if (sort === 'listed') return byDay('seen_on', descending)
  if (sort === 'next-due') return byDay('next_due_on', descending)
  return sort === 'patient' ? `standing.patient_id${descending ? ' DESC' : ''}` : URGENCY
}

const OF_RULE = 'standing.patient_id IN (SELECT patient_id FROM standing_finding WHERE rule = ?)'
const COMES_BACK_TO = 'standing.patient_id IN (SELECT patient_id FROM standing_back_to WHERE name = ?)'
const ASSIGNED = 'standing.patient_id IN (SELECT patient_id FROM assigned WHERE account_id = ?)'
const HANDED_OVER = 'standing.patient_id IN (SELECT patient_id FROM standing_open WHERE handed = 1)'
const NOBODYS = 'standing.patient_id NOT IN (SELECT patient_id FROM assigned)'

type Part = readonly [sql: string, cell: Cell]

function filterOf(query: StandingQuery): { readonly base: string; readonly sql: string; readonly cells: readonly Cell[] } {
  const { window, phase, clinician, rule, comesBackTo = null, patientId = null, news = null, sinceRound = null, assigned = null, handedOver } = query
  const parts: readonly Part[] = [
    ['window_rank = ?', window === null ? null : WINDOWS.indexOf(window)],
    ['phase = ?', phase],
    ['standing.clinician = ?', clinician],
    [OF_RULE, rule],
    [COMES_BACK_TO, comesBackTo],
    ['standing.patient_id = ?', patientId],
    [ASSIGNED, assigned === 'nobody' ? null : assigned],
  ]
  const asked = parts.filter(([, cell]) => cell !== null)
  const sql = [...asked.map(([text]) => text), ...(assigned === 'nobody' ? [NOBODYS] : []), ...(handedOver === true ? [HANDED_OVER] : [])]
    .map((text) => ` AND ${text}`)
    .join('')
  if (news === null || sinceRound === null) return { base: '', sql, cells: asked.map(([, cell]) => cell) }
  return { base: BASE, sql: ` AND ${NEWS_FILTER[news]}${sql}`, cells: [sinceRound, ...asked.map(([, cell]) => cell)] }
}

/** The statement that finds the patients of a page, in their order; its last two parameters are how many, and how many before them. */
export function pageStatement(query: StandingQuery): { readonly sql: string; readonly cells: readonly Cell[] } {
  const { base, sql, cells } = filterOf(query)
  return {
    // The index is named: it holds everything this asks for, and another would read a wide row for each patient.
    sql: `${base}SELECT patient_id AS patientId FROM standing INDEXED BY standing_urgency WHERE followed = 1${sql} ORDER BY ${orderOf(query)} LIMIT ? OFFSET ?`,
    cells: [...cells, query.pageSize, (query.page - 1) * query.pageSize],
  }
}

/** The statement that counts the patients of all pages. */
export function countStatement(query: StandingQuery): { readonly sql: string; readonly cells: readonly Cell[] } {
  const { base, sql, cells } = filterOf(query)
  return { sql: `${base}SELECT count(*) AS matching FROM standing INDEXED BY standing_urgency WHERE followed = 1${sql}`, cells }
}

/** One page of the review list from what is kept, and how many patients match. Nobody is evaluated for it. */
export function standingsPage(connection: Connection, query: StandingQuery): { rows: StandingOnList[]; matching: number } {
  return connection.snapshot(() => {
    const { statement } = connection
    const [page, count] = [pageStatement(query), countStatement(query)]
    const ids = statement<{ patientId: string }>(page.sql).all(...page.cells)
    // All in one question: on a server each is a journey.
    const found = statement<StandingOnList>(ROWS).all(JSON.stringify(ids.map(({ patientId }) => patientId)))
    const rowOf = new Map(found.map((row) => [row.patientId, row]))
    const rows = ids.flatMap(({ patientId }) => rowOf.get(patientId) ?? [])
    return { rows, matching: statement<{ matching: number }>(count.sql).get(...count.cells)?.matching ?? 0 }
  })
}

/** Everybody followed, most urgent first. */
export function standingsInOrder({ statement }: Connection): StandingOnList[] {
  return statement<StandingOnList>(`${SELECT} WHERE followed = 1 ORDER BY ${URGENCY}`).all()
}

/** What the filters of the list can take, and how many stand in each window. */
export interface ListFacets {
  readonly byWindow: Readonly<Record<Window, number>>
  readonly followed: number
  readonly phases: readonly string[]
  readonly clinicians: readonly string[]
  readonly rules: readonly string[]
}

/** The values of an indexed column, each one step in the index from the last: reading every entry for them takes longer than the page. */
function valuesOf({ statement }: Connection, column: 'phase' | 'clinician'): string[] {
  const next = (after: string) => `(SELECT min(${column}) FROM standing WHERE followed = 1${after})`
  const sql = `WITH RECURSIVE each (value) AS (SELECT ${next('')} UNION ALL SELECT ${next(` AND ${column} > value`)} FROM each WHERE value IS NOT NULL)
    SELECT value FROM each WHERE value IS NOT NULL`
  return statement<{ value: string }>(sql)
    .all()
    .map(({ value }) => value)
}

// In the same steps; CROSS JOIN keeps SQLite from going through everybody followed for each rule.
const RULES = `WITH RECURSIVE known (rule) AS (SELECT (SELECT min(rule) FROM standing_finding)
    UNION ALL SELECT (SELECT min(rule) FROM standing_finding WHERE rule > known.rule) FROM known WHERE rule IS NOT NULL)
  SELECT rule FROM known WHERE EXISTS (SELECT 1 FROM standing_finding AS found CROSS JOIN standing
    WHERE standing.patient_id = found.patient_id AND found.rule = known.rule AND followed = 1)`

/** The filters' values and the counts of the windows, over everybody followed. */
export function listFacets(connection: Connection): ListFacets {
  return connection.snapshot(() => {
    const sql = 'SELECT window_rank AS rank, count(*) AS count FROM standing INDEXED BY standing_urgency WHERE followed = 1 GROUP BY window_rank'
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
      phases: valuesOf(connection, 'phase'),
      clinicians: valuesOf(connection, 'clinician'),
      rules: connection
        .statement<{ rule: string }>(RULES)
        .all()
        .map(({ rule }) => rule),
    }
  })
}
