import type { Permission } from '../../access/index.ts'
import type { History, Made } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Reader, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import type { Outcome } from '../call.ts'

export type Refusal = Extract<Outcome<never>, { ok: false }>

/** What a person asks to decide. */
export interface Wish {
  readonly permission: Permission
  readonly patientId: string
  readonly typed: string
  /** What the typed text is called in a sentence. */
  readonly called: string
  /** True where nothing need be typed. */
  readonly optional?: boolean
  /** The stamp of the consequence the person was shown; what stands otherwise by now is not kept. Absent where nothing was shown. */
  readonly shown?: string | undefined
}

/** Who decides, when and in which words: a decision but for its number. */
export type Making = Omit<Made, 'id'>

/** What would be kept, judged against what is true at that moment, so that it can be tried on a history or kept, and both are the same thing. */
export interface Proposal<T> {
  /** The record it is kept with, where that is another one than the patient's: what is decided of a stored thing stays with that record. */
  readonly record?: string
  /** What is asked, without the reason typed. */
  readonly content: object
  /** The history as it would be. */
  readonly added: (history: History, made: Making) => History
  /** Stores it with a record and tells it to the log. */
  readonly keep: (tx: Tx, patientId: string, made: Making) => TrailEvent
  /** What a person should know of it before it is kept. */
  readonly notes?: readonly string[]
  readonly value: T
}

/** Judges what is asked; refuses by `refuse`. */
export type Judge<T> = (assessment: Assessment, reader: Reader) => Proposal<T>

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

/** Ends a decision with this refusal. */
export function refuseWith(refusal: Refusal): never {
  throw new Refused(refusal)
}

/** What a change answers, or the refusal it ended with (`refuse`). */
export async function unlessRefused<T>(change: () => T | Promise<T>): Promise<Outcome<T>> {
  try {
    return { ok: true, value: await change() }
  } catch (error) {
    if (error instanceof Refused) return error.refusal
    throw error
  }
}
