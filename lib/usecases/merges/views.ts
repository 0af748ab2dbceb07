import type { StoredMerge } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'

/** What identifies one record, and how much is in it. */
export interface RecordView {
  readonly patientId: string
  /** What stands for the record in the address of its page. */
  readonly address: string
  readonly name: string | null
  readonly birthDate: string
  readonly sex: string
  readonly clinician: string | null
  readonly status: string
  readonly statusOn: Day | null
  /** Results that count, course events and rows that wait. */
  readonly results: number
  readonly events: number
  readonly held: number
  /** The first and last day on which anything was collected or happened; null where there is nothing. */
  readonly firstOn: Day | null
  readonly lastOn: Day | null
}

/** Two records side by side. */
export interface ComparisonView {
  readonly from: RecordView
  readonly into: RecordView
  /** What the two do not tell alike, and which of it would count: one sentence each. */
  readonly differences: readonly string[]
  /** Why they cannot be joined this way round; null where they can. */
  readonly obstacle: string | null
}

type Told =
  | 'fromId'
  | 'intoId'
  | 'proposedBy'
  | 'proposedAt'
  | 'reason'
  | 'decidedBy'
  | 'decidedAt'
  | 'decisionReason'
  | 'endedBy'
  | 'endedAt'
  | 'endReason'

/** A merge with what became of it. `fromId` is joined to `intoId`, the record that is kept. */
export interface MergeView extends Pick<StoredMerge, Told> {
  readonly mergeId: number
  /** What stands for the two records in the addresses of their pages. */
  readonly fromAddress: string
  readonly intoAddress: string
  readonly state: 'waiting' | 'in force' | 'declined' | 'ended'
  /** Proposed by whoever reads this, who can decline it and cannot confirm it. */
  readonly own: boolean
}

/** A merge that waits, with both records, and why it cannot be confirmed by the reader; null where it can. */
export interface WaitingMergeView extends MergeView, ComparisonView {
  readonly notToConfirm: string | null
}

export interface MergesPage {
  readonly waiting: readonly WaitingMergeView[]
  readonly inForce: readonly MergeView[]
  /** Declined or ended, latest first. */
  readonly past: readonly MergeView[]
}

/** What a patient page says of merges. */
export interface PatientMergesView {
  readonly patientId: string
  /** The merge by which this record is read as part of another; null where it stands for itself. */
  readonly joinedTo: MergeView | null
  /** Records that are read as part of this one. */
  readonly joined: readonly MergeView[]
  readonly waiting: readonly MergeView[]
  /** What the joined records do not tell alike, and which of it counts. */
  readonly differences: readonly string[]
}
