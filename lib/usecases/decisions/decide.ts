import type { Permission } from '../../access/index.ts'
import type { Decision, FindingDecision, ResultDecision } from '../../results/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Tx } from '../../store/index.ts'
import type { Decided as Logged, TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { closedRefusal, isClosed, logClosedRefusal } from '../emergency/closed.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { keepStanding } from '../standing/keepStanding.ts'
import { decisionSha256 } from './decisionSha256.ts'
import { typedText } from './typedText.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

/** What a person asks to decide. */
export interface Wish {
  readonly permission: Permission
  readonly patientId: string
  readonly typed: string
  /** What the typed text is called in a sentence. */
  readonly called: string
  /** True where nothing need be typed. */
  readonly optional?: boolean
}

/** One decision: what it takes the place of or takes back, and how the log tells it. */
export interface One {
  /** The record it is kept with, where that is another one than the patient's: what is decided of a stored result stays with that result. */
  readonly record?: string
  readonly decision: FindingDecision | ResultDecision
  readonly before: Decision | null
  readonly event: (logged: Logged) => TrailEvent
}

/** What is decided, and the answer. */
export interface Decided<T> extends One {
  readonly value: T
}

/** Several decisions of one act, and the answer once they are kept, by their numbers. */
export interface DecidedTogether<T> {
  readonly decisions: readonly One[]
  readonly value: (ids: readonly number[], tx: Tx) => T
}

/** Takes a transaction back that turned out to change nothing. */
class Refused extends Error {
  readonly refusal: Refusal
  constructor(refusal: Refusal) {
    super(refusal.reason)
    this.refusal = refusal
  }
}

/** Ends a decision with its reason; nothing is written. Throws, to be called inside `judge` or `unlessRefused` only. */
export function refuse(kind: Refusal['kind'], reason: string): never {
  throw new Refused({ ok: false, kind, reason })
}

/** What a change answers, or the refusal it ended with (`refuse`). */
export async function unlessRefused<T>(change: () => Promise<T>): Promise<Outcome<T>> {
  try {
    return { ok: true, value: await change() }
  } catch (error) {
    if (error instanceof Refused) return error.refusal
    throw error
  }
}

/** Keeps one decision of `patientId`'s, and says its entry of the log. */
function keep(call: Call, tx: Tx, patientId: string, text: string, { record = patientId, decision, before, event }: One): [number, TrailEvent] {
  const made = { at: call.now, on: call.today, by: call.actor.name, text, ...decision }
  const id = tx.insertDecision({ patientId: record, ...made })
  tx.bumpRevision(record)
  const digests = {
    before: before === null ? null : decisionSha256(tx.recordOfDecision(before.id) ?? record, before),
    after: decisionSha256(record, { id, ...made }),
  }
  return [id, event({ patientId: record, decisionId: id, ...digests })]
}

/**
 * May, then under the write lock: load, judge what is asked against what is true now, and keep the decisions, their entries of the log and the renewed
 * standing together, or none of it. `judge` sees the patient as they stand at that moment, so that nobody decides on what has changed since the page was
 * shown.
 */
export async function decideTogether<T>(call: Call, wish: Wish, judge: (assessment: Assessment, tx: Tx) => DecidedTogether<T>): Promise<Outcome<T>> {
  const refused = await refusedUnlessMay(call, wish.permission, 'patient')
  if (refused !== null) return refused
  const isLeftOut = wish.optional === true && wish.typed.trim() === ''
  const typed = isLeftOut ? { text: '' } : typedText(wish.typed, wish.called)
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  const outcome = await unlessRefused(() =>
    call.store.record(call, (tx) => {
      const stored = tx.loadHistory(wish.patientId) ?? refuse('not-found', `No patient has the number "${wish.patientId}".`)
      const assessment = assess(stored.history, planInForce(tx, call.today), call.today)
      // An emergency view opens a closed record for reading: nothing is decided in it.
      if (isClosed(assessment.course) && call.actor.role !== 'console') throw new Refused(closedRefusal(assessment.course))
      const { decisions, value } = judge(assessment, tx)
      const patientId = stored.history.patient.id
      const kept = decisions.map((one) => keep(call, tx, patientId, typed.text, one))
      for (const record of new Set(decisions.map((one) => one.record ?? patientId))) keepStanding(tx, record, call.today)
      const ids = kept.map(([id]) => id)
      return { value: value(ids, tx), events: kept.map(([, event]) => event) }
    }),
  )
  if (!outcome.ok && outcome.closed) await logClosedRefusal(call, wish.permission, call.store.reader.keptId(wish.patientId))
  return outcome
}

/** The same for one decision. */
export function decide<T>(call: Call, wish: Wish, judge: (assessment: Assessment, tx: Tx) => Decided<T>): Promise<Outcome<T>> {
  return decideTogether(call, wish, (assessment, tx) => {
    const { value, ...one } = judge(assessment, tx)
    return { decisions: [one], value: () => value }
  })
}
