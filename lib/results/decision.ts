import type { Day } from '../time/index.ts'
import type { ReviewKind } from './answerKind.ts'

/** Who decided, when, and in which words. */
export interface Made {
  /** Later decisions have higher numbers. */
  readonly id: number
  /** UTC, ISO 8601. */
  readonly at: string
  /** The clinic's day. */
  readonly on: Day
  readonly by: string
  /** As typed: the note, the other cause, or the reason. Empty where a kind of answer says enough by itself. */
  readonly text: string
}

/** A value as it stood when another cause was recorded: its known end, canonical decimal text in the unit kept. */
export interface AttributedValue {
  readonly analyte: string
  readonly value: string
}

/** What a person decided about a finding. */
export type FindingDecision =
  /**
   * Answers one finding with its evidence (`key`) until a day. `did` is absent from reviews of before there were kinds; `handoverId` names what was handed to
   * a physician and is answered by this.
   */
  | {
      readonly kind: 'review'
      readonly rule: string
      readonly key: string
      readonly bringBackOn: Day
      readonly did?: ReviewKind
      readonly handoverId?: number
    }
  /** Hands one finding with its evidence to a physician: it answers nothing, and stands until a review names it. */
  | { readonly kind: 'handover'; readonly rule: string; readonly key: string }
  /** Takes a review or a handover back. */
  | { readonly kind: 'answer-withdrawn'; readonly answerId: number }
  /** Names another cause for organ damage. `shownOn` is the day of the sample that showed it, `values` what that sample held. */
  | { readonly kind: 'attribution'; readonly rule: string; readonly key: string; readonly shownOn: Day; readonly values: readonly AttributedValue[] }
  | { readonly kind: 'attribution-withdrawn'; readonly attributionId: number }

/** What a person decided about one version of one result. */
export type ResultDecision =
  /** Takes it out as spurious: it counts for nothing. */
  { readonly kind: 'exclusion'; readonly resultId: number } | { readonly kind: 'restoration'; readonly resultId: number }

/** What a person decided about a patient. Nothing is ever changed or removed: taking back is a decision of its own. */
export type Decision = Made & (FindingDecision | ResultDecision)
export type DecisionKind = Decision['kind']
export type DecisionOf<K extends DecisionKind> = Extract<Decision, { kind: K }>
