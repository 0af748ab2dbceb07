import type { Day, Moment } from '../time/index.ts'
import type { Decimal, Interval } from '../units/index.ts'
import type { Analyte } from './analyte.ts'
import type { Immunofixation } from './immunofixation.ts'

export type Comparator = '<' | '<=' | '>' | '>='

/** A quantity twice: as printed (unit as UCUM) and in the unit kept for its analyte. Both exact. */
export interface Quantity {
  readonly kept: Interval
  readonly printed: Interval
  readonly printedUnit: string
}

/** What a report says of one analyte. */
export type Measured =
  | ({ readonly kind: 'number'; readonly comparator: Comparator | null } & Quantity)
  /** Looked for and not there: counts as 0 exactly. */
  | { readonly kind: 'not-detected' }
  /** Seen but not quantified; `upTo` is the limit the report itself names, in the kept unit. */
  | { readonly kind: 'present'; readonly upTo: Decimal | null }
  | { readonly kind: 'immunofixation'; readonly reading: Immunofixation }
  /** No value, with the laboratory's reason; satisfies no test that is due. */
  | { readonly kind: 'none'; readonly reason: string }

export const RESULT_STATUSES = ['final', 'corrected', 'preliminary', 'cancelled', 'entered-in-error'] as const
export type ResultStatus = (typeof RESULT_STATUSES)[number]

/** The laboratory's own limit, as printed and in the kept unit. */
export interface ReferenceLimit {
  readonly kept: Decimal
  readonly printed: Decimal
}

/** Where a value came from, word for word. */
export interface Provenance {
  readonly fileId: number
  readonly fileName: string
  readonly line: number
  /** The value and unit exactly as received. */
  readonly valueText: string
  readonly unitText: string
}

/** One version of one result: what a laboratory reported of one analyte of one sample. */
export interface LabResult {
  readonly id: number
  readonly analyte: Analyte
  /** The LOINC code it came under. */
  readonly code: string
  readonly collected: Moment
  readonly status: ResultStatus
  readonly value: Measured
  readonly accession: string | null
  readonly laboratory: string | null
  readonly method: string | null
  readonly referenceLow: ReferenceLimit | null
  readonly referenceHigh: ReferenceLimit | null
  readonly reportedAt: Moment | null
  /** 1 for the first report, then 2, 3, ... for its corrections. */
  readonly version: number
  readonly provenance: Provenance
}

/** True for a version that takes the result back: nothing of it counts. */
export function isWithdrawn(result: Pick<LabResult, 'status'>): boolean {
  return result.status === 'cancelled' || result.status === 'entered-in-error'
}

/** The calendar day a result was collected on. */
export function collectedOn(result: Pick<LabResult, 'collected'>): Day {
  return result.collected.on
}
