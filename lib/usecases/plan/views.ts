import type { PlanChoice, PlanDifference, PlanValue } from '../../plan/index.ts'
import type { Window } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'

/** One row of the plan in words. */
export interface PlanRowView {
  readonly title: string
  readonly tests: readonly string[]
  readonly often: string
  readonly source: string
  /** How often as Lowmark comes, where the clinic has it otherwise. */
  readonly usual: string | null
}

export interface SetView {
  readonly asks: string
  readonly value: string
  readonly source: string
  /** As Lowmark comes, where the clinic has it otherwise. */
  readonly usual: string | null
}

export interface PlanView {
  readonly version: string
  readonly from: Day
  readonly rows: readonly PlanRowView[]
  readonly grace: readonly SetView[]
  readonly thresholds: readonly SetView[]
}

/** A published version in its time. Version 1 is the one Lowmark comes with: nobody proposed it, and it has no first day. */
export interface PlanVersionView {
  readonly version: string
  readonly from: Day | null
  /** The last day it is followed; null for the last one. */
  readonly until: Day | null
  readonly time: 'past' | 'in force' | 'to come' | 'never in force'
  readonly note: string | null
  readonly proposedBy: string | null
  readonly publishedBy: string | null
  readonly publishedAt: string | null
  /** What it changed of the version before. */
  readonly differences: readonly PlanDifference[]
}

/** A proposal, waiting or decided on otherwise than by publishing. */
export interface ProposalView {
  readonly version: number
  readonly basedOn: number
  readonly state: 'proposed' | 'refused' | 'withdrawn'
  readonly from: Day
  readonly note: string
  readonly proposedBy: string
  readonly proposedAt: string
  readonly decidedBy: string | null
  readonly decidedAt: string | null
  readonly decisionReason: string | null
  /** Of a waiting one, what it would change now; of others, of the version it was drawn from. */
  readonly differences: readonly PlanDifference[]
  /** Proposed by whoever asks. */
  readonly own: boolean
  /** Why it cannot be published by whoever asks, whatever the day; null where it can. */
  readonly notToPublish: string | null
}

/** What the form for a proposal is drawn from. */
export interface PlanFormView {
  readonly basedOn: number
  readonly earliest: Day
  readonly latest: Day
  readonly choices: readonly { readonly choice: PlanChoice; readonly value: PlanValue }[]
}

export interface PlanPage {
  readonly asOf: Day
  readonly inForce: PlanView
  /** Published versions, latest first. */
  readonly versions: readonly PlanVersionView[]
  /** Waiting first, then the decided; null for those who neither propose nor publish. */
  readonly proposals: readonly ProposalView[] | null
  /** Null for those who may not propose. */
  readonly form: PlanFormView | null
  /** The days between which a version can begin; null for those who may not publish. */
  readonly publishing: { readonly earliest: Day; readonly latest: Day } | null
}

/** A patient whose window would change. */
export interface TriedPatient {
  readonly patientId: string
  readonly name: string | null
  readonly before: Window
  readonly after: Window
  readonly whyBefore: string
  readonly whyAfter: string
}

/** What a change of the plan would do, worked out on every followed patient. */
export interface TriedPlan {
  /** The day both plans were held against. */
  readonly on: Day
  readonly evaluated: number
  /** How many would stand in another window. */
  readonly changed: number
  /** How many keep their window, with another due day or reason for a test. */
  readonly dueChanged: number
  /** From which window to which, how many; those that stay included, pairs without anybody left out. */
  readonly counts: readonly { readonly before: Window; readonly after: Window; readonly patients: number }[]
  readonly differences: readonly PlanDifference[]
  /** Whose window would change, soonest look first and at most 200; null for those who may open no patient. */
  readonly patients: readonly TriedPatient[] | null
}
