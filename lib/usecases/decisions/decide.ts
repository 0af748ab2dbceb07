import type { Decision, FindingDecision, ResultDecision } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Reader, Tx } from '../../store/index.ts'
import type { Decided as Logged, TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { keepProposal } from '../proposals/keepProposal.ts'
import type { Making, Proposal, Wish } from '../proposals/proposal.ts'
import { underLock } from '../proposals/underLock.ts'
import { keepStanding } from '../standing/keepStanding.ts'
import { decisionSha256 } from './decisionSha256.ts'

export { refuse, unlessRefused, type Wish } from '../proposals/proposal.ts'

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

/** Judges a decision against the patient as they stand. */
export type Deciding<T> = (assessment: Assessment, reader: Reader) => Decided<T>

/** Keeps one decision with a record, and says its entry of the log. */
function keep(tx: Tx, record: string, made: Making, { decision, before, event }: One): [number, TrailEvent] {
  const id = tx.insertDecision({ patientId: record, ...made, ...decision })
  const digests = {
    before: before === null ? null : decisionSha256(tx.recordOfDecision(before.id) ?? record, before),
    after: decisionSha256(record, { id, ...made, ...decision }),
  }
  return [id, event({ patientId: record, decisionId: id, ...digests })]
}

/** Keeps decisions of one act, their entries of the log and the renewed standing together, or none of it. */
export function decideTogether<T>(call: Call, wish: Wish, judge: (assessment: Assessment, tx: Tx) => DecidedTogether<T>): Promise<Outcome<T>> {
  return underLock(call, wish, (tx, { history, assessment }, text) => {
    const { decisions, value } = judge(assessment, tx)
    const patientId = history.patient.id
    const made = { at: call.now, on: call.today, by: call.actor.name, text }
    const kept = decisions.map((one) => {
      const record = one.record ?? patientId
      const [id, event] = keep(tx, record, made, one)
      tx.bumpRevision(record)
      return { id, event }
    })
    for (const record of new Set(decisions.map((one) => one.record ?? patientId))) keepStanding(tx, record, call.today)
    return {
      value: value(
        kept.map(({ id }) => id),
        tx,
      ),
      events: kept.map(({ event }) => event),
    }
  })
}

/** A decision as a proposal: tried on a history or kept. */
export function proposed<T>({ value, ...one }: Decided<T>): Proposal<T> {
  const { record, decision } = one
  return {
    ...(record === undefined ? {} : { record }),
    content: decision,
    added: (history, made) => {
      const id = Math.max(0, ...history.decisions.map((other) => other.id)) + 1
      return { ...history, decisions: [...history.decisions, { id, ...made, ...decision }] }
    },
    keep: (tx, patientId, made) => keep(tx, patientId, made, one)[1],
    value,
  }
}

/** The same for one decision, which can be tried before. */
export function decide<T>(call: Call, wish: Wish, deciding: Deciding<T>): Promise<Outcome<T>> {
  return keepProposal(call, wish, (assessment, reader) => proposed(deciding(assessment, reader)))
}
