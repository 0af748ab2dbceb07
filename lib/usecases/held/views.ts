import type { HeldChoice, HeldGroup } from '../../store/index.ts'
import type { ComparedView } from './identity.ts'
import type { NeighboursView } from './neighbours.ts'
import type { UnderstoodView } from './understood.ts'

/** A choice of whose a row is that waits for a second person. */
export interface ChoiceView extends Omit<HeldChoice, 'patientId' | 'reason'> {
  /** Whose it may be and why; null for who may not see it. */
  readonly patientId: string | null
  readonly reason: string | null
  /** Rows it would file. */
  readonly rows: number
  /** What identifies the two; null for who may not see it. */
  readonly compared: ComparedView | null
  /** Whether the one who looks may confirm it; else they proposed it themselves or lack the permission. */
  readonly mayConfirm: boolean
  readonly mayDecline: boolean
}

/** A group with what its code names, where it is one code of something followed. */
export interface HeldGroupView extends HeldGroup {
  readonly analyte: string | null
}

/** One page of the queue. */
export interface HeldPageView {
  readonly choices: readonly ChoiceView[]
  readonly groups: readonly HeldGroupView[]
  readonly groupCount: number
  readonly rowCount: number
  readonly pages: number
}

/** One of several rows alike, in a line of a table. */
export interface AlikeRowView {
  readonly heldId: number
  readonly patientId: string | null
  readonly line: number
  readonly fileName: string
  readonly received: string
  readonly collectedOn: string | null
  readonly says: string | null
  /** The value before it, or after it where none is; null where it is not shown or there is none. */
  readonly beside: string | null
  readonly odd: boolean
}

/** What can be decided of a row, and why something cannot be remembered. */
export interface OffersView {
  /** Every code that is followed, with its analyte; null where the code is not the question. */
  readonly codes: readonly (readonly [string, string])[] | null
  readonly codeNotRemembered: string | null
  /** The unit kept, to which a unit has to convert; null where the unit is not the question. */
  readonly unit: string | null
  readonly unitNotRemembered: string | null
  readonly patient: boolean
  readonly patientNotRemembered: string | null
}

/** Everything a person needs to decide on one row. */
export interface HeldDetailView {
  readonly heldId: number
  readonly kind: 'patients' | 'course' | 'results'
  readonly reason: string
  readonly sentence: string
  readonly source: string | null
  readonly fileName: string
  readonly line: number
  readonly receivedAt: string
  readonly waitingDays: number
  readonly text: string
  readonly fields: readonly (readonly [string, string])[]
  readonly decided: Readonly<Record<string, string>> | null
  readonly returnedBy: number | null
  /** Its reason is null for who may see no patient and did not type it. */
  readonly resolved: { readonly by: string; readonly at: string; readonly decision: string; readonly reason: string | null } | null
  readonly understood: UnderstoodView | null
  readonly neighbours: NeighboursView | null
  /** What the row would say by what a person tries; `problem` where that cannot be. Null where nothing is tried. */
  readonly tried: { readonly code: string; readonly unit: string; readonly problem: string | null; readonly stopped: string | null } | null
  readonly alike: { readonly rows: number; readonly patients: number; readonly shown: readonly AlikeRowView[]; readonly odd: number }
  readonly offers: OffersView
  readonly choice: ChoiceView | null
  /** Whether the one who looks may see patients beside the row. */
  readonly seesPatients: boolean
}
