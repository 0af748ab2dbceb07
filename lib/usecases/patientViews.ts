import type { ChartPlan, CoursePlan } from '../charts/index.ts'
import type { AnswerKind } from '../results/index.ts'
import type { AnswerChoice } from '../review/index.ts'
import type { DerivedValue, Window } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import type { CourseRecordView } from './courseChanges/views.ts'

export interface EvidenceView {
  readonly role: 'reference' | 'previous' | 'current'
  readonly analyte: string
  readonly value: string
  readonly unit: string
  readonly comparator: string | null
  readonly collectedOn: Day
  /** Where it came from, as received: "value unit (file, row n, laboratory)". */
  readonly sources: readonly { readonly fileName: string; readonly line: number; readonly received: string; readonly laboratory: string | null }[]
}

/** What a person typed about a finding, and when. */
export interface AnswerView {
  readonly by: string
  readonly on: Day
  /** Null for a review of before there were kinds. */
  readonly did: AnswerKind | null
  /** Empty where the kind says enough. */
  readonly note: string
  /** Who took it back, and when; null while it stands. */
  readonly takenBack: { readonly by: string; readonly on: Day } | null
}

export interface FindingView {
  readonly rule: string
  /** Names the finding with its evidence: a review or an attribution is about this and nothing newer. */
  readonly key: string
  /** What the rule is called. */
  readonly title: string
  readonly state: string
  readonly certainty: string
  readonly window: Window
  readonly since: Day
  readonly endedOn: Day | null
  readonly cautions: readonly { readonly caution: string; readonly says: string }[]
  readonly evidence: readonly EvidenceView[]
  readonly says: string
  /** That the true rise meets the criterion: in words ("About 9 in 10") and with two digits ("0.93"); null where the finding has none. */
  readonly probability: { readonly words: string; readonly value: string } | null
  readonly asks: string
  readonly source: string
  /** The review that answers it today; null while it is open. It is open again on `bringBackOn`. */
  readonly answered: (AnswerView & { readonly bringBackOn: Day }) | null
  /** Who handed it to a physician; it stays open until one answers it. Null where nobody did, or one answered. */
  readonly handedOver: AnswerView | null
  /** The number of the last thing done about it, 0 for nothing: a form sends it back, so that its person is told what another one did meanwhile. */
  readonly lastDone: number
  /** The last answer, where it can be taken back; null where there is none, or evidence came after it. */
  readonly takeBack: number | null
  /** Whether another cause could be recorded for it today. */
  readonly attributable: boolean
  /** The other cause recorded for it, while that holds; `until` is the day the finding comes back. */
  readonly attribution: {
    readonly id: number
    readonly cause: string
    readonly by: string
    readonly on: Day
    readonly until: Day
    /** It ends sooner once the value is worse by so many per cent. */
    readonly worsePercent: number
  } | null
  /** Earlier reviews of it that answer it no more, latest first. */
  readonly pastAnswers: readonly AnswerView[]
  /** The last correction that made it, changed it or took it back; null where none did. */
  readonly correction: CorrectionView | null
}

/** One report of a result, as received. */
export interface ReportView {
  readonly received: string
  readonly status: string
  readonly laboratory: string | null
  readonly fileName: string
  readonly line: number
}

/** What corrected results did to a finding. */
export interface CorrectionView {
  readonly id: number
  readonly what: 'removed' | 'created' | 'changed'
  /** The day it came in. */
  readonly on: Day
  readonly says: string
  readonly reports: readonly {
    readonly analyte: string
    readonly collectedOn: Day
    readonly before: ReportView
    /** Null where the report before was taken back with its mapping, and nothing counts in its place. */
    readonly now: ReportView | null
  }[]
  /** Who had decided on the finding, or excluded the report before. */
  readonly decided: readonly { readonly kind: 'reviewed' | 'handed-over' | 'attributed' | 'excluded'; readonly by: string; readonly on: Day }[]
}

/** One stored result as received, with what became of it. */
export interface ResultView {
  readonly resultId: number
  readonly analyte: string
  readonly collectedOn: Day
  /** Value and unit as received. */
  readonly received: string
  readonly laboratory: string | null
  readonly method: string | null
  readonly fileName: string
  readonly line: number
  readonly version: number
  readonly status: string
  /** Who took it out as spurious, when and why; it then counts for nothing. Null while it counts. */
  readonly excluded: { readonly by: string; readonly on: Day; readonly reason: string } | null
}

/** One immunofixation as the page shows it: the text as received, how it was read, and what that means against the diagnosis. */
export interface ImmunofixationView {
  readonly on: Day
  readonly specimen: 'serum' | 'urine'
  readonly text: string
  readonly laboratory: string | null
  readonly corrected: boolean
  /** `unread` must be read by a person. */
  readonly reading: 'negative' | 'positive' | 'cannot-exclude' | 'unread'
  readonly readAs: string
  /** One sentence a band. */
  readonly means: readonly string[]
}

export interface PatientView {
  readonly asOf: Day
  readonly patientId: string
  readonly name: string | null
  readonly birthDate: string
  readonly age: { readonly years: number; readonly exact: boolean }
  readonly sex: string
  readonly clinician: string | null
  readonly status: string
  readonly statusOn: Day | null
  readonly phase: string
  readonly phaseSince: Day | null
  readonly care: string | null
  readonly heavyChain: string | null
  readonly involvedChain: string | null
  readonly measurableBy: readonly string[]
  readonly window: Window
  /** One sentence of where the patient stands. */
  readonly why: string
  readonly lines: readonly {
    readonly number: number
    readonly start: Day
    readonly end: Day | null
    readonly regimen: readonly string[]
    readonly intent: string | null
  }[]
  /** What physicians changed of the course, and what came in beside it. */
  readonly courseRecord: CourseRecordView
  readonly charts: readonly ChartPlan[]
  /** The same on one axis of time. */
  readonly course: CoursePlan
  /** Newest first. */
  readonly immunofixations: readonly ImmunofixationView[]
  readonly derived: readonly DerivedValue[]
  readonly findings: readonly FindingView[]
  readonly history: readonly FindingView[]
  readonly due: readonly {
    readonly group: string
    readonly lastDoneOn: Day | null
    readonly dueOn: Day
    readonly graceEndsOn: Day
    readonly daysLate: number
    readonly because: string
  }[]
  readonly response: {
    readonly category: string | null
    readonly state: string | null
    readonly provisional: boolean
    readonly missing: readonly string[]
  }
  readonly risk: readonly {
    readonly model: string
    readonly factors: number | null
    readonly points: number | null
    readonly group: string | null
    readonly percent: string | null
    readonly horizon: string | null
    readonly missing: readonly string[]
  }[]
  readonly held: readonly number[]
  /** The latest day a review may bring a finding back on. */
  readonly bringBackAtMost: Day
  /** Each kind of answer, with the day it usually comes back on. */
  readonly answerChoices: readonly AnswerChoice[]
  /** Every result that counts or was excluded, latest collected first. */
  readonly results: readonly ResultView[]
}
