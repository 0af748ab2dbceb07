import type { LookView } from '../look/views.ts'
import type { PatientView } from '../patientViews.ts'

/** An emergency view as the page it opens tells it. */
export interface EmergencyBand {
  readonly emergencyId: number
  readonly reason: string
  /** UTC, ISO 8601; and what the clinic's clocks show then. */
  readonly untilAt: string
  readonly until: string
  readonly secondsLeft: number
}

/** One patient for the patient page; `emergency` says by which view a closed record is open, null for a patient who is followed. */
export interface OpenedPatient extends PatientView {
  /** What quality is told in place of the name and the number; null where the key of the pseudonyms cannot be read. */
  readonly pseudonym: string | null
  readonly emergency: EmergencyBand | null
  /** Whom the patient can be given to; nobody for whoever may not change that. */
  readonly clinicians: readonly string[]
  readonly look: LookView
}

/** A view that runs for whoever asks. */
export interface OwnEmergency extends EmergencyBand {
  readonly patientId: string
  /** What stands for the patient in the address of the page. */
  readonly address: string
}

/** An emergency view as the quality team reads it. */
export interface EmergencyView {
  readonly emergencyId: number
  readonly openedBy: string
  readonly fromAt: string
  /** When it ended, or will. */
  readonly toAt: string
  readonly minutes: number
  readonly state: 'runs' | 'ended by the physician' | 'ended with the session' | 'ran out'
  readonly reason: string
  /** As this reader may be told. */
  readonly patient: string
  /** When the page was opened in it, with the number of the entry. */
  readonly opened: readonly { readonly sequence: number; readonly at: string }[]
  /** Opened by whoever reads this, who cannot acknowledge it. */
  readonly own: boolean
  readonly acknowledgedBy: string | null
  readonly acknowledgedAt: string | null
  readonly note: string | null
}

export interface EmergencyViewsPage {
  /** Nobody acknowledged these; oldest first. */
  readonly waiting: readonly EmergencyView[]
  /** Latest first. */
  readonly acknowledged: readonly EmergencyView[]
}
