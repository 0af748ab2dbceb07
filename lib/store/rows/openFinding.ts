/** A finding nobody's review answers now, as the rounds know it. */
export interface OpenFinding {
  /** The first 128 bits of the SHA-256 of its key, as 32 digits: another sample, a correction or another window give another one. */
  readonly key: string
  /** Rule and subject: the same whatever the evidence. */
  readonly topic: string
  /** When the last review that answered it was made (UTC, ISO 8601); null where none ever did, and for a danger, which no review answers. */
  readonly answeredAt: string | null
  /** Why that review answers it no longer: its day was reached, the evidence is another, or a correction came after it. */
  readonly back: 'day' | 'evidence' | 'corrected' | null
  /** Whether it is handed to a physician and answered by none yet: 0 or 1. */
  readonly handed: 0 | 1
}
