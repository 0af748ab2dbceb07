import type { Day } from '../time/index.ts'

/** What is logged of the follow-up plan. */
export type PlanEvent =
  | { readonly action: 'plan-proposed'; readonly version: number; readonly from: Day; readonly beforeSha256: string; readonly afterSha256: string }
  | { readonly action: 'plan-withdrawn'; readonly version: number; readonly sha256: string }
  | {
      readonly action: 'plan-tried'
      /** Null for numbers that are not proposed yet. */
      readonly version: number | null
      readonly from: Day
      readonly sha256: string
      readonly evaluated: number
      readonly changed: number
      /** Whom the answer named; nobody where the reader may open no patient. */
      readonly patients: readonly string[]
    }
  | { readonly action: 'plan-published'; readonly version: number; readonly from: Day; readonly beforeSha256: string; readonly afterSha256: string }
  /** Its reason is a person's free text and stays with the version. */
  | { readonly action: 'plan-refused'; readonly version: number; readonly sha256: string }
