import type { Strip } from '../charts/index.ts'
import type { ReviewKind } from '../results/index.ts'
import type { Window } from '../rules/index.ts'
import type { FileCounts, StandingQuery } from '../store/index.ts'
import type { Day } from '../time/index.ts'
import type { UnderstoodView } from './held/understood.ts'
import type { RoundOfList, RowOfRound } from './rounds/views.ts'
import type { SessionView } from './sessions/openSessions.ts'

/** What the address of the review list can ask for. Never a name: `clinician` is the key that `ListPage.clinicians` gives. */
export type ListQuery = Omit<StandingQuery, 'comesBackTo' | 'handedOver' | 'patientId' | 'sinceRound' | 'assigned'> & {
  /** The round whose end the list is compared with; the last that ended where it is left out. */
  readonly since?: number | null
  /** Whom whoever asks has, nobody has, or the account of this number has. */
  readonly has?: 'me' | 'nobody' | number | null
  /** Only the patient quality tells by this pseudonym. */
  readonly pseudonym?: string | null
  /** Only what comes back to whoever asks: a correction came after their review. */
  readonly mine?: boolean
  /** Only whom something is handed to a physician of that none has answered yet. */
  readonly handed?: boolean
}

/** One place in the review list, as few fields as the page shows. */
export interface ListRow {
  readonly position: number
  readonly patientId: string
  /** What stands for the patient in the address of the patient page. */
  readonly address: string
  readonly name: string | null
  readonly phase: string
  readonly care: string | null
  readonly clinician: string | null
  readonly window: Window
  /** The rule at the top, its state and certainty; null on schedule. */
  readonly rule: string | null
  readonly state: string | null
  readonly certainty: string | null
  /** The one sentence why. */
  readonly why: string
  /** How many further findings are current and unanswered. */
  readonly more: number
  /** How many current findings a review answers: they wait for their day and do not count for the place. */
  readonly answered: number
  readonly cautions: readonly string[]
  readonly strip: Strip | null
  readonly since: Day | null
  readonly daysWaiting: number | null
  readonly nextDueOn: Day | null
  readonly overdue: readonly { readonly group: string; readonly dueOn: Day; readonly daysLate: number }[]
  /** Whether a correction came after a review of whoever asks, and nobody has reviewed that since. */
  readonly comesBackToYou: boolean
  /** The latest that was handed to a physician and is answered by none yet; null where nothing is. */
  readonly handedOver: { readonly by: string; readonly on: Day } | null
  /** What was noted last of the first finding where it is a danger and open still; null where nothing is. */
  readonly noted: { readonly did: ReviewKind | null; readonly by: string; readonly on: Day } | null
  /** What the weekly round knows of the patient; left out of a file and of a list under pseudonyms. */
  readonly round?: RowOfRound
}

export interface ListPage {
  readonly asOf: Day
  readonly rows: readonly ListRow[]
  /** Patients that match the filter, and all followed ones. */
  readonly matching: number
  readonly followed: number
  /** How many followed patients stand in each window, before filtering. */
  readonly byWindow: Readonly<Record<Window, number>>
  /** Values the filters can take: phases, clinicians and rules that occur. */
  readonly phases: readonly string[]
  readonly clinicians: readonly { readonly key: string; readonly name: string }[]
  readonly rules: readonly string[]
  readonly planVersion: string
  readonly round: RoundOfList
}

export type RowOutcome = 'filed' | 'known' | 'corrected' | 'held' | 'refused'

export interface RowProblem {
  readonly line: number
  readonly outcome: 'held' | 'refused'
  readonly reason: string
  readonly sentence: string
  /** The row as received. */
  readonly row: string
}

/** What became of one file. rows = filed + known + corrected + held + refused. */
export interface FileReport extends FileCounts {
  /** Rows the file has: more than `rows` while it is being taken in, or where that was interrupted. */
  readonly rowsInFile: number
  /** Null on a dry run and for a file refused whole. */
  readonly fileId: number | null
  readonly fileName: string
  readonly sha256: string
  readonly bytes: number
  readonly kind: 'patients' | 'course' | 'results' | null
  readonly source: string | null
  readonly receivedAt: string
  readonly receivedBy: string
  readonly dryRun: boolean
  /** Why the whole file was refused; null where it was taken. */
  readonly refusedWhole: { readonly reason: string; readonly sentence: string } | null
  readonly problems: readonly RowProblem[]
}

export interface HeldRowView {
  readonly heldId: number
  readonly receivedAt: string
  readonly fileId: number
  readonly fileName: string
  /** Who sent the file; null where nobody said. */
  readonly source: string | null
  readonly line: number
  readonly kind: 'patients' | 'course' | 'results'
  readonly patientId: string | null
  readonly reason: string
  readonly sentence: string
  /** The row as received, with the header's names. */
  readonly fields: Readonly<Record<string, string>>
  /** How far it could be read; null where it is no row of results. */
  readonly understood: UnderstoodView | null
  readonly waitingDays: number
}

export interface TrailRowView {
  readonly sequence: number
  readonly at: string
  readonly actor: string
  readonly role: string
  readonly action: string
  readonly outcome: string
  /** Where it came from; null at the console. */
  readonly address: string | null
  /** In words, with no clinical content. */
  readonly says: string
  /** Null where the reader may not see whom it concerned. */
  readonly patientId: string | null
  /** Whom it concerned, under pseudonyms, the first 200; empty where the reader is not told, or told by number. */
  readonly pseudonyms: readonly string[]
  /** How many patients it concerned, where `pseudonyms` names them. */
  readonly concerned: number
}

export interface AccountView {
  readonly name: string
  readonly role: string
  readonly state: 'waiting for its code' | 'active' | 'disabled'
  /** Is it joined to a person of the clinic's single sign-on? */
  readonly joined: boolean
  readonly hasSecondFactor: boolean
  readonly createdAt: string
  readonly lastSignInAt: string | null
  readonly sessions: readonly SessionView[]
}
