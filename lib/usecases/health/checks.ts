import type { Arrival } from '../../store/index.ts'
import type { HealthFacts } from './facts.ts'
import { LIMITS, sizeText, spanText } from './limits.ts'

export type HealthState = 'ok' | 'warn' | 'fail'

/** One thing that was looked at. */
export interface Check {
  readonly what: 'database' | 'backup' | 'intake' | 'log' | 'log-head' | 'disk' | 'schema'
  /** The source, of intake; null of everything else. */
  readonly of: string | null
  readonly state: HealthState
  readonly says: string
  /** What to do about it; null where it is in order. */
  readonly doThis: string | null
  /** From where on it is no longer ok. */
  readonly limit: string
  /** When what it speaks of happened; null where it never did or is no event. */
  readonly at: string | null
}

export interface Health {
  readonly status: HealthState
  /** UTC, ISO 8601. */
  readonly at: string
  /** What is wrong comes first. */
  readonly checks: readonly Check[]
}

const since = (at: string, now: string): number => Math.max(0, Date.parse(now) - Date.parse(at))
const later = (a: string, b: string): string => (a > b ? a : b)

const DO = {
  database: 'Look at the disk of the database: is it full, read-only or gone? Nothing is filed or shown until it takes writes again.',
  backup: 'Run the backup by hand and read what it says; then look at its timer (docs/backup.md).',
  intake: 'Ask who runs this source whether it still sends, and look at its last files.',
  logNever: 'Run log verify, or a backup, which checks the log as well.',
  logBad: 'Do not change anything. Stop the program, keep a copy of the database, and compare with the last backup.',
  head: 'Set where the head of the log is sent.',
  headFailed: 'Look at the place the head of the log is sent to; what went wrong stands where the program writes its errors (docs/log.md).',
  disk: 'Make room on the disk of the database, or move older backups away from it.',
} as const

type Found = Pick<Check, 'state' | 'says'> & { readonly at?: string | null; readonly doThis?: string }

/** A check as it is told: what to do stands only where something is wrong. */
function told(what: Check['what'], limit: string, { state, says, at = null, doThis }: Found, of: string | null = null): Check {
  return { what, of, state, says, doThis: state === 'ok' ? null : (doThis ?? null), limit, at }
}

function databaseCheck({ notWritten }: HealthFacts): Check {
  const limit = 'fails when a row cannot be written'
  if (notWritten === null) return told('database', limit, { state: 'ok', says: 'A row was written to the database just now.' })
  return told('database', limit, { state: 'fail', says: `The database cannot be written (${notWritten}).`, doThis: DO.database })
}

function schemaCheck({ schema }: HealthFacts): Check {
  return told('schema', 'another version does not open', { state: 'ok', says: `The database is at ${schema}, as this version needs it.` })
}

const ITS_SERVER_BACKS_IT_UP = 'The server backs this database up; whether it does is watched there, not here (docs/postgresql.md).'

function backupCheck({ now, beganAt, onServer, last: { backup, failed } }: HealthFacts): Check {
  if (onServer) return told('backup', 'not watched from here', { state: 'ok', says: ITS_SERVER_BACKS_IT_UP, doThis: DO.backup })
  const limit = `warns after ${spanText(LIMITS.backupWarnMs)}, fails after ${spanText(LIMITS.backupFailMs)}`
  const age = since(backup?.at ?? beganAt ?? now, now)
  const failedLast = failed !== null && (backup === null || failed.at > backup.at)
  const missed = failedLast ? ` The last try failed (${failed.reason}).` : ''
  const made =
    backup === null
      ? 'No backup has been made yet.'
      : `The last backup was made and verified ${spanText(age)} ago${backup.encrypted ? '' : ', not encrypted'}.`
  const state = age > LIMITS.backupFailMs ? 'fail' : age > LIMITS.backupWarnMs || backup === null || failedLast ? 'warn' : 'ok'
  return told('backup', limit, { state, says: `${made}${missed}`, at: backup?.at ?? null, doThis: DO.backup })
}

function intakeCheck({ source, lastAt, days }: Arrival, now: string): Check {
  const quiet = since(lastAt, now)
  const regular = days >= LIMITS.regularDays
  const seldom = `none: it sent on ${days} of the 60 days before, fewer than ${LIMITS.regularDays}`
  const state = regular && quiet > LIMITS.quietWarnMs ? 'warn' : 'ok'
  const found = { state, says: `Something last came from it ${spanText(quiet)} ago.`, at: lastAt, doThis: DO.intake } as const
  return told('intake', regular ? `warns after ${spanText(LIMITS.quietWarnMs)}` : seldom, found, source)
}

/** A verified backup has had its log checked, so either counts; one that did not fit stands until it is checked again and does. */
function logCheck({ now, last: { backup, verified } }: HealthFacts): Check {
  const limit = `warns after ${spanText(LIMITS.logWarnMs)}, fails where a row does not fit`
  const bad = verified?.firstBad ?? null
  if (verified !== null && bad !== null) {
    const says = `The log did not fit from row ${bad} on when it was checked.`
    return told('log', limit, { state: 'fail', says, at: verified.at, doThis: DO.logBad })
  }
  const times = [verified?.at, backup?.at].flatMap((at) => at ?? [])
  if (times.length === 0) return told('log', limit, { state: 'warn', says: 'The log has not been checked yet.', doThis: DO.logNever })
  const at = times.reduce(later)
  const age = since(at, now)
  const state = age > LIMITS.logWarnMs ? 'warn' : 'ok'
  return told('log', limit, { state, says: `The log was checked ${spanText(age)} ago and was whole.`, at, doThis: DO.logNever })
}

function headCheck({ now, last: { sent, notSent } }: HealthFacts): Check {
  const limit = `warns after ${spanText(LIMITS.headWarnMs)}, or where the last try failed`
  const never = "The log's head was never sent elsewhere: a cut tail would not show."
  const missed = notSent === null ? '' : ` The last try failed, ${spanText(since(notSent.at, now))} ago.`
  const doThis = notSent === null ? DO.head : DO.headFailed
  if (sent === null) return told('log-head', limit, { state: 'warn', says: `${never}${missed}`, doThis })
  const age = since(sent.at, now)
  const state = age > LIMITS.headWarnMs || notSent !== null ? 'warn' : 'ok'
  return told('log-head', limit, { state, says: `The log's head was sent elsewhere ${spanText(age)} ago.${missed}`, at: sent.at, doThis })
}

function diskCheck({ disk, onServer }: HealthFacts): Check {
  const enough = Math.max(LIMITS.diskWarnBytes, LIMITS.diskWarnCopies * (disk?.database ?? 0))
  const limit = `warns below ${sizeText(enough)}, fails below ${sizeText(LIMITS.diskFailBytes)}`
  if (disk === null) return told('disk', limit, { state: 'warn', says: 'How much room the disk has left could not be told.', doThis: DO.disk })
  const state = disk.free < LIMITS.diskFailBytes ? 'fail' : disk.free < enough ? 'warn' : 'ok'
  const says = onServer
    ? `${sizeText(disk.free)} are free on the disk where files arrive; the disk of the server is watched there.`
    : `${sizeText(disk.free)} are free on the disk of the database, which has ${sizeText(disk.database)}.`
  return told('disk', limit, { state, says, doThis: DO.disk })
}

const WORST_FIRST: readonly HealthState[] = ['fail', 'warn', 'ok']

/** Judges what was looked at. Pure: the time is in the facts. */
export function judge(facts: HealthFacts): Health {
  const all = [
    databaseCheck(facts),
    backupCheck(facts),
    ...facts.arrivals.map((arrival) => intakeCheck(arrival, facts.now)),
    logCheck(facts),
    headCheck(facts),
    diskCheck(facts),
    schemaCheck(facts),
  ]
  const checks = WORST_FIRST.flatMap((state) => all.filter((check) => check.state === state))
  return { status: checks[0]?.state ?? 'fail', at: facts.now, checks }
}
