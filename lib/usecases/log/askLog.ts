import type { FailureGroup, TrailQuestion } from '../../store/index.ts'
import { addDays, type Day, parseDay } from '../../time/index.ts'
import { LOG_QUESTIONS, type LogAsked, SHOWING_ACTIONS, TRAIL_ACTIONS } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { notTold, patientMeant } from '../patientTold.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { LOG_PAGE, type TrailPage } from './readLog.ts'
import { pageOf, rowViews } from './rowView.ts'

/** A question to the log. What is empty asks for nothing. */
export interface LogQuestion {
  readonly question: LogAsked['question']
  /** Whom `who-opened` is about, as typed: a patient's number, or a pseudonym for whoever works under them. */
  readonly patient: string
  /** Whose entries: somebody who has left any. `what-opened` needs one. */
  readonly person: string
  /** One kind of entry, for `every-entry`. */
  readonly only: string
  /** Days of UTC, as the log writes times; both are in it. */
  readonly from: string
  readonly to: string
  /** The page after another begins before its last entry. */
  readonly before: number | null
}

export interface LogAnswer extends Omit<TrailPage, 'scope'> {
  /** Who failed at what and from where, most often first; for `failures` alone. */
  readonly failures: readonly FailureGroup[]
}

/** So many groups of failures are told; all of them are in the table below. Ours. */
const GROUPS = 20

type Refusal = Extract<Outcome<never>, { ok: false }>
const invalid = (reason: string): Refusal => ({ ok: false, kind: 'invalid', reason })

const NOBODY: Refusal = { ok: false, kind: 'not-found', reason: 'Nobody is known by what was typed. Check it.' }

function problemOf(call: Call, { question, patient, person, only, from, to }: LogQuestion): Refusal | null {
  if (!LOG_QUESTIONS.includes(question)) return invalid('The log knows no such question.')
  if (question === 'who-opened' && patient.trim() === '') return invalid('Type whom the question is about.')
  if (question === 'what-opened' && person === '') return invalid('Choose whose entries the question is about.')
  if (person !== '' && !call.store.reader.trailActors().includes(person)) return invalid('That person has left no entry.')
  if (only !== '' && !TRAIL_ACTIONS.some((action) => action === only)) return invalid('The log knows no such kind of entry.')
  for (const text of [from, to]) if (text !== '' && parseDay(text) === null) return invalid('A day is written YYYY-MM-DD.')
  return from !== '' && to !== '' && from > to ? invalid('The first day comes after the last.') : null
}

function actionsOf({ question, only }: LogQuestion): readonly string[] | null {
  if (question === 'what-opened') return SHOWING_ACTIONS
  return question === 'every-entry' && only !== '' ? [only] : null
}

function readAs(call: Call, asked: LogQuestion, patientId: string | null): TrailQuestion {
  const { question, person, to, from, before } = asked
  const day = parseDay(to)
  return {
    shown: question === 'who-opened' && patientId !== null ? [patientId, ...call.store.reader.joinedIds(patientId)] : null,
    actor: person === '' ? null : person,
    actions: actionsOf(asked),
    only: question === 'failures' ? 'failures' : question === 'emergency-views' ? 'emergency' : null,
    from: from === '' ? null : `${from}T00:00:00.000Z`,
    to: day === null ? null : `${addDays(day, 1)}T00:00:00.000Z`,
    before,
  }
}

function loggedAs({ question, person, only, from, to }: LogQuestion, patientId: string | null): LogAsked {
  return {
    question,
    ...(question === 'who-opened' ? { patientId } : {}),
    ...(person === '' ? {} : { person }),
    ...(question === 'every-entry' && only !== '' ? { only } : {}),
    ...(from === '' ? {} : { from: from as Day }),
    ...(to === '' ? {} : { to: to as Day }),
  }
}

/**
 * Asks the whole log: to whom a patient was shown, what somebody was shown, what failed, emergency views, or any entries; latest first. A patient was
 * shown by a page, a list, a saved list, beside a held row, in two records side by side or in a trial of the plan. Each question is itself an entry, with whom
 * it was about and never with what was typed.
 */
export async function askLog(call: Call, asked: LogQuestion, meant = patientMeant): Promise<Outcome<LogAnswer>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'log')
  if (refused !== null) return refused
  const problem = notTold(call) ?? problemOf(call, asked)
  if (problem !== null) return problem
  const patientId = asked.question === 'who-opened' ? meant(call, asked.patient) : null
  const event = { action: 'log-read', scope: 'all', asked: loggedAs(asked, patientId) } as const
  await call.store.record(call, () => ({ value: null, events: [event] }))
  if (asked.question === 'who-opened' && patientId === null) return NOBODY
  const { reader } = call.store
  const question = readAs(call, asked, patientId)
  return reader.atOnce((): Outcome<LogAnswer> => {
    const { rows, total } = reader.askTrail(question, LOG_PAGE + 1)
    const { shown, next } = pageOf(rows, LOG_PAGE)
    const failures = asked.question === 'failures' ? reader.failuresBy(question, GROUPS) : []
    const views = rowViews(call, shown)
    return views.ok ? { ok: true, value: { rows: views.value, total, next, failures } } : views
  })
}

/** Whom a question can be about, and which kinds of entry there are. */
export async function logChoices(call: Call): Promise<Outcome<{ readonly people: readonly string[]; readonly actions: readonly string[] }>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'log')
  return refused ?? { ok: true, value: { people: call.store.reader.trailActors(), actions: TRAIL_ACTIONS } }
}
