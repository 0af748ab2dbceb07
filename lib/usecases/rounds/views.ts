import type { AnswerKind } from '../../results/index.ts'
import type { News } from '../../review/index.ts'
import type { Window } from '../../rules/index.ts'
import type { Having, NewsCounts, SinceRound, WindowCounts } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'

/** A round by number, with who and when in words: `Monday 2026-11-23 08:10`. What it ended with is null while it runs. */
export interface RoundView {
  readonly roundId: number
  readonly startedBy: string
  readonly started: string
  readonly endedBy: string | null
  readonly ended: string | null
  readonly followed: number | null
  readonly open: number | null
}

/** How far a round is. Done: somebody answered since it started, and nothing of the patient is open that was not. */
export interface RoundProgress {
  readonly done: number
  /** Patients with something open, and those who are done. */
  readonly of: number
}

/** The counts of a round, which change while the list is worked through. */
export interface RoundNow {
  /** The round that runs; null where none does. */
  readonly runningId: number | null
  readonly progress: RoundProgress | null
  /** How many patients were handed to a physician since the running round started. */
  readonly handedOver: number
  /** What is another than when the round ended that the list is compared with; null where no round has ended. */
  readonly news: NewsCounts | null
}

/** What the list says of rounds, of who has whom, and of views kept. */
export interface RoundOfList extends RoundNow {
  readonly running: RoundView | null
  /** The round whose end the list is compared with; null where no round has ended. */
  readonly since: RoundView | null
  /** Rounds to compare with, latest first. */
  readonly earlier: readonly RoundView[]
  /** Who has how many followed patients, and how many of them nobody has. */
  readonly having: readonly Having[]
  readonly nobodys: number
  /** Whom a patient can be given to, by name. */
  readonly people: readonly PersonView[]
  /** The number of the account of whoever asks; null at the console. */
  readonly you: number | null
  readonly views: readonly SavedViewView[]
}

/** Somebody a patient can be given to. */
export interface PersonView {
  readonly accountId: number
  readonly name: string
  readonly role: string
}

/** Filters and order kept under a name. */
export interface SavedViewView {
  readonly viewId: number
  readonly version: number
  readonly name: string
  readonly shared: boolean
  readonly by: string
  readonly asks: ViewAsks
}

/** What a saved view asks of the list. */
export interface ViewAsks {
  readonly window: Window | null
  readonly phase: string | null
  readonly clinician: string | null
  readonly rule: string | null
  readonly mine: boolean
  readonly handed: boolean
  readonly news: News | null
  readonly has: 'me' | 'nobody' | number | null
  readonly sort: 'urgency' | 'waiting' | 'listed' | 'next-due' | 'patient'
  readonly descending: boolean
}

/** Who has a patient. */
export interface AssignedView {
  /** The number of the last assignment, to send along; null where there never was one. */
  readonly assignmentId: number | null
  /** Null where nobody has the patient. */
  readonly to: string | null
  readonly disabled: boolean
  readonly isYou: boolean
}

/** What the weekly round knows of one patient of the list. */
export interface RowOfRound {
  /** Null where no round has ended. */
  readonly since: SinceRound | null
  /** Since when the longest waiting of the open findings has been on the list, and for how many days; null where nothing is open. */
  readonly seenOn: Day | null
  readonly daysOnList: number | null
  readonly assigned: AssignedView
}

/** What was answered in a round, by kind. */
export interface AnsweredView {
  /** Null for reviews without a kind. */
  readonly kind: AnswerKind | null
  readonly patients: number
  readonly findings: number
}

/** A patient handed to a physician in a round. */
export interface HandedView {
  readonly patientId: string
  readonly name: string | null
  readonly address: string
  readonly by: string
}

/** The summary of a round: of one that runs as it stands, of one that ended as it ended. */
export interface RoundSummary {
  readonly round: RoundView
  readonly asOf: Day
  readonly lookedAt: number
  readonly answered: readonly AnsweredView[]
  readonly answeredPatients: number
  /** Who was handed to a physician in the round, up to a dozen of them, and how many there were. */
  readonly handed: readonly HandedView[]
  readonly handedPatients: number
  readonly progress: RoundProgress
  readonly open: WindowCounts
  readonly having: readonly Having[]
  readonly nobodys: number
}
