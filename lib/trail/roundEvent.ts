/** What is logged of rounds of the review list, of who has which patient, and of ways of looking at the list kept under a name. */
export type RoundEvent =
  | { readonly action: 'round-started'; readonly roundId: number }
  /** `after` is the SHA-256 of the round as it ended. */
  | { readonly action: 'round-ended'; readonly roundId: number; readonly followed: number; readonly open: number; readonly after: string }
  | { readonly action: 'rounds-shown'; readonly rounds: number }
  /** Whom the summary named. */
  | { readonly action: 'round-shown'; readonly roundId: number; readonly patients: readonly string[] }
  | {
      readonly action: 'patient-assigned'
      readonly patientId: string
      readonly assignmentId: number
      /** Who has the patient now; null: nobody. */
      readonly account: string | null
    }
  /** What it is called and what it asks stays with the view; its digest stands for it here. */
  | { readonly action: 'view-saved'; readonly viewId: number; readonly version: number; readonly before: string | null; readonly after: string }
  | { readonly action: 'view-removed'; readonly viewId: number; readonly version: number; readonly before: string }
