import type { LookView } from '../look/views.ts'
import type {
  AnswerView,
  CorrectionView,
  EvidenceView,
  FindingView,
  ImmunofixationView,
  PatientView,
  ReportView,
  ResultView,
} from '../patientViews.ts'
import type { ListPage, ListQuery, ListRow } from '../views.ts'

/** What no view under pseudonyms has. A view that has one of these does not fit its type, so an identified one cannot be passed by mistake. */
export interface NamesNobody {
  readonly patientId?: never
  readonly name?: never
  readonly birthDate?: never
  readonly age?: never
}

/** Where a value came from without the file and row: a file's name may name a patient. */
interface FromNoFile {
  readonly fileName?: never
  readonly line?: never
}

/** What the address of the list under pseudonyms can ask for. Nobody reviews or has patients there, and the order of patient numbers is not shown. */
export type CohortQuery = Omit<ListQuery, 'mine' | 'handed' | 'pseudonym' | 'sort' | 'news' | 'since' | 'has'> & {
  readonly mine?: never
  readonly handed?: never
  readonly pseudonym?: never
  readonly news?: never
  readonly since?: never
  readonly has?: never
  readonly sort: Exclude<ListQuery['sort'], 'patient' | 'listed'>
}

/** One place of the review list under a pseudonym. */
export type CohortRow = Omit<ListRow, 'patientId' | 'address' | 'name' | 'comesBackToYou' | 'round'> &
  NamesNobody & { readonly pseudonym: string; readonly comesBackToYou?: never }

export type CohortPage = Omit<ListPage, 'rows' | 'round'> & { readonly rows: readonly CohortRow[] }

export type CohortEvidenceView = Omit<EvidenceView, 'sources'> & {
  readonly sources: readonly (FromNoFile & { readonly laboratory: string | null; readonly received?: never })[]
}

/** That somebody did something, when, and whether they typed a note (null) or none (empty); never what. */
export type CohortAnswerView = Omit<AnswerView, 'note'> & { readonly note: null | '' }

export type CohortReportView = Omit<ReportView, 'fileName' | 'line'> & FromNoFile

export type CohortCorrectionView = Omit<CorrectionView, 'reports'> & {
  readonly reports: readonly (Omit<CorrectionView['reports'][number], 'before' | 'now'> & {
    readonly before: CohortReportView
    readonly now: CohortReportView | null
  })[]
}

export type CohortFindingView = Omit<
  FindingView,
  'key' | 'evidence' | 'answered' | 'handedOver' | 'lastDone' | 'takeBack' | 'attributable' | 'attribution' | 'pastAnswers' | 'correction'
> & {
  readonly key?: never
  readonly evidence: readonly CohortEvidenceView[]
  readonly answered: (CohortAnswerView & { readonly bringBackOn: NonNullable<FindingView['answered']>['bringBackOn'] }) | null
  readonly handedOver: CohortAnswerView | null
  readonly attribution: (Omit<NonNullable<FindingView['attribution']>, 'id' | 'cause'> & { readonly cause: null }) | null
  readonly pastAnswers: readonly CohortAnswerView[]
  readonly correction: CohortCorrectionView | null
}

export type CohortResultView = Omit<ResultView, 'fileName' | 'line' | 'excluded'> &
  FromNoFile & { readonly excluded: (Omit<NonNullable<ResultView['excluded']>, 'reason'> & { readonly reason: null }) | null }

/** The text of an immunofixation is what a person in the laboratory typed: it is not shown, how it was read is. */
export type CohortImmunofixationView = Omit<ImmunofixationView, 'text'> & { readonly text: null }

/** One patient under a pseudonym: findings, charts, values and days as everybody sees them, and nothing that says who it is. */
export type CohortPatientView = Omit<
  PatientView,
  | 'patientId'
  | 'name'
  | 'birthDate'
  | 'age'
  | 'lines'
  | 'courseRecord'
  | 'immunofixations'
  | 'findings'
  | 'history'
  | 'held'
  | 'bringBackAtMost'
  | 'answerChoices'
  | 'results'
> &
  NamesNobody & {
    readonly pseudonym: string
    readonly look: LookView
    /** `80 to 84`, `90 and over`. */
    readonly ageBand: string
    readonly immunofixations: readonly CohortImmunofixationView[]
    readonly findings: readonly CohortFindingView[]
    readonly history: readonly CohortFindingView[]
    /** How many rows of this patient wait for a decision. */
    readonly heldRows: number
    readonly results: readonly CohortResultView[]
  }
