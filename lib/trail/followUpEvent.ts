import type { Day } from '../time/index.ts'

/** Of which period, up to which day data counted, and which state of the data was read: how many changes they had seen. */
interface Audited {
  readonly from: Day
  readonly to: Day
  readonly cutOff: Day
  readonly revision: number
}

/** What is logged of the follow-up audit. */
export type FollowUpEvent =
  /** Figures that name no patient. `whatIf`: a version of the plan they were also worked out under; null for none. `sha256` is that of the figures. */
  | (Audited & { readonly action: 'follow-up-read'; readonly whatIf: number | null; readonly sha256: string; readonly as?: 'file' })
  /** The tests of one group, patient by patient; by what it was told apart. Or what waits behind a figure, by the name of that. */
  | (Audited & { readonly action: 'follow-up-patients-shown'; readonly by: string; readonly patients: readonly string[] })
  | (Audited & { readonly action: 'pseudonymous-follow-up-patients-shown'; readonly by: string; readonly patients: readonly string[] })
