/** What left the program as a file or on paper, and whose it was. */
export type ExportEvent =
  /** `as` says what of the list it was; absent for the list itself as a file. */
  | { readonly action: 'list-exported'; readonly patients: readonly string[]; readonly as?: 'findings' | 'paper' }
  | { readonly action: 'pseudonymous-list-exported'; readonly patients: readonly string[]; readonly as?: 'findings' }
  /** A patient's summary; `revision` says of which state of the record. */
  | {
      readonly action: 'patient-exported'
      readonly patientId: string
      readonly as: 'fhir' | 'paper'
      readonly revision: number
      readonly emergencyId?: number
    }
