import type { Permission, Role } from '../access/index.ts'
import type { CourseEvent } from './courseEvent.ts'
import type { ExportEvent } from './exportEvent.ts'
import type { FollowUpEvent } from './followUpEvent.ts'
import type { KeepingEvent } from './keepingEvent.ts'
import type { PlanEvent } from './planEvent.ts'
import type { RoundEvent } from './roundEvent.ts'
import type { SheetEvent } from './sheetEvent.ts'

/** Who did something. The console is the operating-system user at the command line. */
export interface Actor {
  readonly name: string
  readonly role: Role | 'console' | 'none'
  /** SHA-256 of the session row's id; null at the console. */
  readonly sessionHash: string | null
  readonly address: string | null
  readonly requestId: string
}

/** A decision about a patient, by its number. What was typed and what it is about stay with the decision; its digest stands for them here. */
export interface Decided {
  readonly patientId: string
  readonly decisionId: number
  /** SHA-256 of the decision this one takes the place of or takes back; null where there was none. */
  readonly before: string | null
  /** SHA-256 of the decision as stored. */
  readonly after: string
}

/** A decision about one version of one result. */
export interface DecidedOfResult extends Decided {
  readonly resultId: number
  readonly version: number
}

/** A decision about reading two records as one patient. The reason typed stays with the merge; its digest stands for it here. */
export interface Merged {
  readonly mergeId: number
  /** The record that is kept, and the one that is joined to it. */
  readonly patientId: string
  readonly fromId: string
  /** SHA-256 of the merge before and as stored. */
  readonly before: string | null
  readonly after: string
}

/** Whose a held row is, by one person's word. Its reason stays with the choice. */
export interface ChosenPatient {
  readonly choiceId: number
  readonly heldId: number
  readonly patientId: string
}

/** What a text of a source was decided to mean: a code, a unit, or whose an identifier is. */
export type MappingKind = 'code' | 'unit' | 'patient'

/** Why a sign-in through the clinic's identity provider failed. Words of ours: nothing of the token, and nothing the provider wrote. */
export const PROVIDER_REFUSALS = [
  'unreachable',
  'refused-by-provider',
  'no-cookie',
  'state',
  'code',
  'token',
  'algorithm',
  'signature',
  'wrong-issuer',
  'wrong-audience',
  'wrong-nonce',
  'expired',
  'issued-in-future',
  'no-subject',
  'unknown-identity',
  'disabled',
  'not-joined',
] as const
export type ProviderRefusal = (typeof PROVIDER_REFUSALS)[number]

/** A sign-in that went through the clinic's identity provider. */
export type ProviderSignIn =
  | { readonly outcome: 'success'; readonly by: 'provider' }
  | {
      readonly outcome: 'failure'
      readonly by: 'provider'
      readonly because: ProviderRefusal
      /** SHA-256 of the identity (issuer and subject), where one was told. */
      readonly identity?: string
    }

/** What is logged (access.md "The log"). Details carry identifiers and counts, never a clinical value. */
export type TrailEvent =
  | { readonly action: 'sign-in'; readonly outcome: 'success' | 'failure' }
  | ({ readonly action: 'sign-in' } & ProviderSignIn)
  | { readonly action: 'sign-out' }
  /** Whose closed record it was, where that is known; absent elsewhere. */
  | { readonly action: 'access-refused'; readonly permission: Permission; readonly object: string; readonly patientId?: string }
  | { readonly action: 'list-shown'; readonly patients: readonly string[] }
  /** With the number of the emergency view that opened a closed record; absent for a patient who is followed. */
  | { readonly action: 'patient-opened'; readonly patientId: string; readonly emergencyId?: number }
  /** Its reason is a person's free text and stays with the view; its digest stands for it here. */
  | { readonly action: 'emergency-opened'; readonly emergencyId: number; readonly patientId: string; readonly until: string; readonly after: string }
  | { readonly action: 'emergency-ended'; readonly emergencyId: number; readonly patientId: string }
  | {
      readonly action: 'emergency-acknowledged'
      readonly emergencyId: number
      readonly patientId: string
      readonly before: string
      readonly after: string
    }
  /** Which emergency views were shown with their reasons. */
  | { readonly action: 'emergency-views-shown'; readonly emergencyIds: readonly number[] }
  /** Under pseudonyms; the log keeps whose they are. */
  | { readonly action: 'pseudonymous-list-shown'; readonly patients: readonly string[] }
  | { readonly action: 'pseudonymous-patient-opened'; readonly patientId: string }
  | {
      readonly action: 'intake'
      readonly fileId: number
      readonly sha256: string
      readonly fileName: string
      /** A large file is taken in part by part, each with its own entry. */
      readonly part: number
      readonly parts: number
      readonly rows: number
      readonly filed: number
      readonly known: number
      readonly corrected: number
      readonly held: number
      readonly refused: number
      readonly released: number
      /** Patients its results brought, from a source trusted to add them; absent where none. */
      readonly patientsAdded?: number
    }
  | {
      readonly action: 'intake-refused'
      readonly fileName: string
      readonly sha256: string
      readonly reason: string
      /** Where its bytes are kept part by part, each with its own entry. */
      readonly part?: number
      readonly parts?: number
    }
  /** The report of a file, with the text of its held and refused rows. */
  | { readonly action: 'report-read'; readonly fileId: number }
  /** The host it listens on, and how connections are kept private: not at all, by the program's certificate, by certificates on both sides. */
  | { readonly action: 'listener-started'; readonly at: string; readonly tls: 'none' | 'server' | 'both'; readonly source: string | null }
  | { readonly action: 'listener-stopped'; readonly at: string; readonly source: string | null }
  | { readonly action: 'message-repeated'; readonly fileId: number; readonly sha256: string; readonly source: string | null }
  /** Its reason is one of our own words; nothing that came over the connection is in it. */
  | { readonly action: 'connection-closed'; readonly reason: string; readonly source: string | null }
  | {
      readonly action: 'held-resolved'
      readonly heldId: number
      readonly patientId: string | null
      /** Its reason is a person's free text and stays with the held row: the log is read by those who may see no clinical content. */
      readonly decision: 'file' | 'refuse'
      /** Its patient, whom nobody knew, was made with it; absent where not. */
      readonly patientAdded?: true
    }
  | {
      readonly action: 'held-opened'
      readonly heldId: number
      /** Whose course was shown beside it; null where none was. */
      readonly patientId: string | null
      /** Of whom one value each was shown, because a row of theirs is alike. */
      readonly beside: readonly string[]
    }
  /** What identifies a patient was shown, to compare with a held row. */
  | { readonly action: 'held-compared'; readonly heldId: number; readonly patientId: string }
  | { readonly action: 'held-read-again'; readonly rows: number; readonly stay: number }
  | ({ readonly action: 'held-patient-proposed' } & ChosenPatient)
  | ({ readonly action: 'held-patient-confirmed' } & ChosenPatient)
  | ({ readonly action: 'held-patient-declined' } & ChosenPatient)
  | { readonly action: 'mapping-decided'; readonly mappingId: number; readonly kind: MappingKind }
  | { readonly action: 'mapping-revoked'; readonly mappingId: number; readonly kind: MappingKind }
  | {
      readonly action: 'mapping-taken-back'
      readonly mappingId: number
      readonly rows: number
      readonly versions: number
      readonly patients: readonly string[]
    }
  /** `did` is the kind of answer; absent from entries of before there were kinds. */
  | ({ readonly action: 'review-recorded'; readonly did?: string } & Decided)
  | ({ readonly action: 'review-withdrawn' } & Decided)
  | ({ readonly action: 'attribution-recorded' } & Decided)
  | ({ readonly action: 'attribution-withdrawn' } & Decided)
  | ({ readonly action: 'result-excluded' } & DecidedOfResult)
  | ({ readonly action: 'result-restored' } & DecidedOfResult)
  | { readonly action: 'records-compared'; readonly patientId: string; readonly fromId: string }
  | { readonly action: 'merges-shown'; readonly patients: readonly string[] }
  | ({ readonly action: 'merge-proposed' } & Merged)
  | ({ readonly action: 'merge-confirmed' } & Merged)
  | ({ readonly action: 'merge-declined' } & Merged)
  | ({ readonly action: 'merge-ended' } & Merged)
  | { readonly action: 'account-added'; readonly account: string; readonly role: Role }
  | { readonly action: 'account-code-given'; readonly account: string }
  | { readonly action: 'account-activated'; readonly account: string }
  | { readonly action: 'account-disabled'; readonly account: string }
  /** `identity` is the SHA-256 of issuer and subject. */
  | { readonly action: 'account-joined'; readonly account: string; readonly identity: string }
  | { readonly action: 'account-unjoined'; readonly account: string; readonly identity: string }
  | { readonly action: 'account-role-changed'; readonly account: string; readonly from: Role; readonly to: Role }
  | { readonly action: 'second-factor-set-up'; readonly account: string }
  | { readonly action: 'second-factor-turned-off'; readonly account: string }
  | { readonly action: 'second-factor-taken-away'; readonly account: string }
  | { readonly action: 'recovery-codes-made'; readonly account: string; readonly count: number }
  /** How many are left. */
  | { readonly action: 'recovery-code-used'; readonly account: string; readonly left: number }
  | { readonly action: 'password-changed'; readonly account: string }
  | {
      readonly action: 'sessions-ended'
      readonly account: string
      readonly count: number
      /** SHA-256 of the id of the one session that was chosen; absent where all were meant. */
      readonly session?: string
    }
  | { readonly action: 'standings-renewed'; readonly patients: number; readonly because: 'day' | 'rules' | 'plan' }
  | { readonly action: 'rechecked'; readonly patients: number; readonly differences: number }
  | {
      /** Its reason is a person's free text and stays with the version. */
      readonly action: 'source-profile-saved'
      readonly source: string
      readonly version: number
      /** Null for a source that had none. */
      readonly beforeSha256: string | null
      readonly afterSha256: string
    }
  | CourseEvent
  | ExportEvent
  | FollowUpEvent
  | KeepingEvent
  | PlanEvent
  | RoundEvent
  | SheetEvent
  | { readonly action: 'demonstration-filled'; readonly patients: number; readonly seed: number }
export type TrailAction = TrailEvent['action']
