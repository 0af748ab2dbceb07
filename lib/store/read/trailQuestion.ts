import type { TrailRow } from '../../trail/index.ts'
import type { Cell, Connection } from '../connection.ts'
import { type ReadTrailRow, readRow, TRAIL_FIELDS } from './trail.ts'

/** Which entries of the log to read, latest first. What is null or empty asks for nothing. */
export interface TrailQuestion {
  /** Entries that showed any of these records. */
  readonly shown: readonly string[] | null
  readonly actor: string | null
  readonly actions: readonly string[] | null
  readonly only: 'failures' | 'emergency' | null
  /** Entries at or after this moment, and before that one. UTC, ISO 8601. */
  readonly from: string | null
  readonly to: string | null
  /** Only entries before this one: the last of the page before. */
  readonly before: number | null
}

/** One stretch of one index of the log. Those of a question tell of no entry twice, but for records that are joined. */
interface Stretch {
  readonly from: string
  readonly where: readonly string[]
  readonly cells: readonly Cell[]
}

const OF_TRAIL = 'trail'

function stretchesOf({ shown, actor, actions, only }: TrailQuestion): Stretch[] {
  // A condition that is looked at row by row, where another index leads.
  const rest: Stretch = {
    from: OF_TRAIL,
    where: [...(actor === null ? [] : ['+actor = ?']), ...(actions === null ? [] : [`+action IN (${actions.map(() => '?').join(', ')})`])],
    cells: [...(actor === null ? [] : [actor]), ...(actions ?? [])],
  }
  const beside = (first: Stretch): Stretch => ({ ...first, where: [...first.where, ...rest.where], cells: [...first.cells, ...rest.cells] })
  if (shown !== null)
    return shown.map((id) => beside({ from: 'trail_shown JOIN trail USING (sequence)', where: ['trail_shown.patient_id = ?'], cells: [id] }))
  if (only === 'failures') {
    const from = actor === null ? 'trail INDEXED BY trail_failure' : 'trail INDEXED BY trail_failure_of'
    return [{ from, where: ["outcome = 'failure'", ...(actor === null ? [] : ['actor = ?'])], cells: actor === null ? [] : [actor] }]
  }
  if (only === 'emergency')
    return [beside({ from: 'trail INDEXED BY trail_emergency', where: ["json_extract(event, '$.emergencyId') IS NOT NULL"], cells: [] })]
  if (actions !== null) {
    const whose = actor === null ? { where: [], cells: [] } : { where: ['actor = ?'], cells: [actor] }
    return actions.map((action) => ({ from: OF_TRAIL, where: [...whose.where, 'action = ?'], cells: [...whose.cells, action] }))
  }
  return [actor === null ? { from: OF_TRAIL, where: [], cells: [] } : { from: OF_TRAIL, where: ['actor = ?'], cells: [actor] }]
}

/** The numbers of the first and the last entry of a period. `mixed`: a clock was set back, and entries of another time stand between them. */
interface Ends {
  readonly first: number
  readonly last: number
  readonly mixed: boolean
}

type Period = Pick<TrailQuestion, 'from' | 'to'>

const IN_PERIOD = 'FROM trail INDEXED BY trail_at WHERE at >= ? AND at < ?'
// Before and after every moment that is written with digits.
const ALWAYS = ['', '~'] as const

function endsOf({ statement }: Connection, { from, to }: Period): Ends {
  if (from === null && to === null) return { first: 1, last: Number.MAX_SAFE_INTEGER, mixed: false }
  const sql = `SELECT coalesce(min(sequence), 1) AS first, coalesce(max(sequence), 0) AS last, count(*) AS entries ${IN_PERIOD}`
  const found = statement<{ first: number; last: number; entries: number }>(sql).get(from ?? ALWAYS[0], to ?? ALWAYS[1])
  const { first, last, entries } = found ?? { first: 1, last: 0, entries: 0 }
  return { first, last, mixed: entries < last - first + 1 }
}

/** Where entries of another time stand among those of a period, each is asked for its own time. */
function within(stretch: Stretch, { from, to }: Period, { mixed }: Ends): Stretch {
  if (!mixed) return stretch
  return { ...stretch, where: [...stretch.where, '+at >= ?', '+at < ?'], cells: [...stretch.cells, from ?? ALWAYS[0], to ?? ALWAYS[1]] }
}

const selected = ({ from, where }: Stretch, ends: string): string =>
  `SELECT sequence FROM ${from} WHERE ${[...where, 'sequence BETWEEN ? AND ?'].join(' AND ')}${ends}`

// The log has no gap between its first entry and its last, so all of it is counted by its ends.
const COUNT_ALL = `SELECT coalesce((SELECT max(sequence) FROM trail WHERE sequence <= ?) - (SELECT min(sequence) FROM trail WHERE sequence >= ?) + 1, 0) AS total`

function countOf({ statement }: Connection, stretches: readonly Stretch[], { first, last }: Ends, mayRepeat: boolean): number {
  if (stretches.every(({ where }) => where.length === 0)) return Math.max(0, statement<{ total: number }>(COUNT_ALL).get(last, first)?.total ?? 0)
  // Joined records can stand in one entry together: only there an entry could be counted twice.
  const each = stretches.map((stretch) => selected(stretch, '')).join(stretches.length > 1 && mayRepeat ? ' UNION ' : ' UNION ALL ')
  const cells = stretches.flatMap((stretch) => [...stretch.cells, first, last])
  return statement<{ total: number }>(`SELECT count(*) AS total FROM (${each}) AS entries`).get(...cells)?.total ?? 0
}

/** A page of what a question asks for, and how many entries there are on all its pages. Reads each index from its end, however long the log is. */
export function askTrail(connection: Connection, question: TrailQuestion, limit: number): { rows: ReadTrailRow[]; total: number } {
  return connection.snapshot(() => {
    const ends = endsOf(connection, question)
    const { first, last } = ends
    const stretches = stretchesOf(question).map((stretch) => within(stretch, question, ends))
    const before = Math.min(last, (question.before ?? Number.MAX_SAFE_INTEGER) - 1)
    const pages = stretches.map((stretch) => `SELECT * FROM (${selected(stretch, ' ORDER BY sequence DESC LIMIT ?')}) AS stretch`).join(' UNION ')
    const cells = stretches.flatMap((stretch) => [...stretch.cells, first, before, limit])
    const rows = connection
      .statement<TrailRow>(`SELECT ${TRAIL_FIELDS} FROM trail WHERE sequence IN (${pages} ORDER BY sequence DESC LIMIT ?) ORDER BY sequence DESC`)
      .all(...cells, limit)
    return { rows: rows.map(readRow), total: countOf(connection, stretches, ends, question.shown !== null) }
  })
}

/** Failures of a period, by who, from where and what. */
export interface FailureGroup {
  readonly actor: string
  readonly address: string | null
  readonly action: string
  readonly count: number
  readonly lastAt: string
}

/** Who failed at what and from where in a period, most often first. */
export function failuresBy(connection: Connection, period: Pick<TrailQuestion, 'from' | 'to' | 'actor'>, limit: number): FailureGroup[] {
  const whose = period.actor === null ? '' : 'AND actor = ?'
  const sql = `SELECT actor, address, action, count(*) AS count, max(at) AS lastAt FROM trail INDEXED BY trail_failure_of
    WHERE outcome = 'failure' AND at >= ? AND at < ? ${whose} GROUP BY actor, address, action ORDER BY count(*) DESC, max(sequence) DESC LIMIT ?`
  return connection
    .statement<FailureGroup>(sql)
    .all(period.from ?? ALWAYS[0], period.to ?? ALWAYS[1], ...(period.actor === null ? [] : [period.actor]), limit)
}

/** Everybody who has left an entry, by name. Leaps from name to name, however many entries each has. */
export function trailActors({ statement }: Connection): string[] {
  const next = statement<{ actor: string | null }>('SELECT min(actor) AS actor FROM trail WHERE actor > ?')
  const found: string[] = []
  for (let actor = next.get('')?.actor ?? null; actor !== null; actor = next.get(actor)?.actor ?? null) found.push(actor)
  return found
}
