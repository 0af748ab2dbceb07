import type { Disease } from '../disease/disease.ts'
import type { PrecursorRisk } from '../disease/precursorDisease.ts'
import type { CareNow } from '../follow/episodes.ts'
import type { DirectedVisit } from '../follow/visit.ts'
import type { CoursePiece } from '../rows/courseRow.ts'

export interface PrecursorBase {
  readonly phase: 'mgus' | 'smouldering'
  readonly risk: PrecursorRisk
}

export interface ActiveBase {
  readonly phase: 'active' | 'plasma-cell-leukaemia'
  readonly care: CareNow
  /** What the disease is, where the scenario needs it so. */
  readonly disease: Partial<Disease>
  /** Mass of the clone in the last years, as part of its mass at diagnosis. */
  readonly residue: number
  /** Regimen of the last line. */
  readonly regimen?: string
  /** Diagnosed so many days ago; drawn otherwise. */
  readonly diagnosedAgo?: number
  /** No marrow and no imaging was recorded. */
  readonly bare?: boolean
}

/** What a scenario does to the end of a course; the years before come from the kinetic model. */
export interface Scenario {
  readonly name: string
  /** How many of 400 patients. */
  readonly per400: number
  readonly base: PrecursorBase | ActiveBase
  /** The last visits, oldest first; no planned visit comes between them or after them. */
  readonly visits: readonly DirectedVisit[]
  /** Rows of the course file beside the usual ones. */
  readonly course?: readonly CoursePiece[]
  /** eGFR at diagnosis, where the scenario needs a worse kidney. */
  readonly egfr?: number
  /** Nothing of this patient is in the course file. */
  readonly noCourse?: boolean
  /** Rows that intake must hold are written for this patient. */
  readonly heldRows?: boolean
}
