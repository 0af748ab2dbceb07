import type { ChangedSince, ReadingLevel, Sheet, SheetOffer, SheetTest } from '../../sheet/index.ts'
import type { Day } from '../../time/index.ts'
import type { EmergencyBand } from '../emergency/views.ts'

/** A draft as its physician sees it before releasing it. */
export interface DraftView {
  readonly sheet: Sheet
  /** SHA-256 of the sheet: what is released is what was seen, or nothing. */
  readonly digest: string
  readonly level: ReadingLevel
  /** Words in the typed part that a reader may stumble over. */
  readonly hardWords: readonly string[]
  readonly chosen: readonly SheetTest[]
  readonly own: string
  readonly visitOn: Day | null
  /** The last sheet released when this was shown; 0 for none. */
  readonly afterSheet: number
}

/** Who took a sheet back, when and why. */
export interface WithdrawnView {
  readonly by: string
  readonly on: Day
  readonly reason: string
}

export interface SheetInList {
  readonly sheetId: number
  readonly releasedBy: string
  readonly releasedOn: Day
  readonly tests: readonly string[]
  readonly withdrawn: WithdrawnView | null
}

/** The page of one patient's sheets. */
export interface SheetsPage {
  readonly patientId: string
  readonly name: string | null
  /** Latest first. */
  readonly released: readonly SheetInList[]
  readonly offers: readonly SheetOffer[]
  /** Rows of this patient that wait for somebody's decision. */
  readonly held: number
  /** Null for whoever may not release, and in an emergency view. */
  readonly draft: DraftView | null
  readonly emergency: EmergencyBand | null
}

/** One released sheet. */
export interface OpenedSheet {
  readonly sheetId: number
  readonly patientId: string
  readonly name: string | null
  readonly sheet: Sheet
  readonly digest: string
  readonly level: ReadingLevel
  readonly releasedBy: string
  readonly releasedOn: Day
  readonly revision: number
  /** The revision the history stands at now. */
  readonly revisionNow: number
  readonly withdrawn: WithdrawnView | null
  readonly changed: ChangedSince
  /** True where a record it was made from is no longer read as this patient: it may show another person's results. */
  readonly ofOtherRecords: boolean
  readonly emergency: EmergencyBand | null
}
