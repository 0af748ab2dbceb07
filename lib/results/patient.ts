import type { BirthDate, Day } from '../time/index.ts'
import type { Decimal } from '../units/index.ts'
import type { HeavyChain, LightChain } from './immunofixation.ts'

export type Sex = 'female' | 'male'
export const PATIENT_STATUSES = ['followed', 'transferred', 'discharged', 'died'] as const
export type PatientStatus = (typeof PATIENT_STATUSES)[number]

export interface Patient {
  readonly id: string
  readonly familyName: string | null
  readonly givenName: string | null
  readonly birthDate: BirthDate
  readonly sex: Sex
  readonly weightKg: Decimal | null
  readonly clinician: string | null
  readonly status: PatientStatus
  readonly statusOn: Day | null
}

export const PHASES = ['mgus', 'smouldering', 'active', 'plasmacytoma', 'amyloidosis', 'plasma-cell-leukaemia'] as const
export type Phase = (typeof PHASES)[number]

export const INTENTS = ['induction', 'transplant', 'consolidation', 'maintenance', 'relapse'] as const
export type Intent = (typeof INTENTS)[number]

export const MODALITIES = ['xray', 'ct', 'pet-ct', 'mri'] as const
export type Modality = (typeof MODALITIES)[number]

/** What happened on a day, as the course file tells it (intake.md). */
export type CourseEvent =
  | {
      readonly event: 'diagnosis'
      readonly on: Day
      readonly phase: Phase
      readonly heavyChain: HeavyChain | 'none' | null
      readonly lightChain: LightChain | null
    }
  | { readonly event: 'phase'; readonly on: Day; readonly phase: Phase }
  | { readonly event: 'line-start'; readonly on: Day; readonly line: number; readonly regimen: readonly string[]; readonly intent: Intent | null }
  | { readonly event: 'line-end'; readonly on: Day; readonly line: number }
  | {
      readonly event: 'imaging'
      readonly on: Day
      readonly modality: Modality
      readonly lyticLesions: number | null
      readonly focalLesions5mm: number | null
      readonly newLesions: number | null
      readonly growthPercent: Decimal | null
    }
  | {
      readonly event: 'marrow'
      readonly on: Day
      readonly plasmaCellsPercent: Decimal | null
      readonly abnormalities: readonly string[]
      readonly mrd: 'negative' | 'positive' | null
    }
  | { readonly event: 'bone-agent'; readonly on: Day; readonly regimen: readonly string[] }
  | { readonly event: 'left'; readonly on: Day; readonly reason: 'transferred' | 'discharged' | 'died' }

export type CourseEventOf<E extends CourseEvent['event']> = Extract<CourseEvent, { event: E }>

/** A row of this patient that waits in the held queue: a person has not decided on it yet. */
export interface HeldNotice {
  /** Its number in the queue. */
  readonly id: number
  readonly receivedOn: Day
  readonly collectedOn: Day | null
}
