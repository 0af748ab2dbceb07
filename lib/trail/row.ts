import type { Actor, TrailAction } from './event.ts'

/** One row of the log (fields after FHIR R4 AuditEvent and IHE Basic Audit). */
export interface TrailRow {
  /** 1, 2, 3, ... without a gap. */
  readonly sequence: number
  /** UTC, ISO 8601. */
  readonly at: string
  readonly actor: string
  readonly role: Actor['role']
  readonly sessionHash: string | null
  readonly address: string | null
  readonly action: TrailAction
  readonly outcome: 'success' | 'failure'
  /** A code of HL7 v3 PurposeOfUse; null in rows that were written before it was kept. */
  readonly purpose: string | null
  readonly patientId: string | null
  /** What was acted on: "file 12", "account navigator", "held row 7". */
  readonly object: string | null
  readonly objectVersion: number | null
  readonly requestId: string
  /** SHA-256 of the thing before and after, where it has a digest. */
  readonly beforeHash: string | null
  readonly afterHash: string | null
  /** The event as canonical JSON. */
  readonly event: string
  /** Hash of the row before; 64 zeros for the first. */
  readonly previousHash: string
  readonly hash: string
}
