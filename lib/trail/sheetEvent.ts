/** A released sheet of a patient, by its number; with the number of the emergency view it was opened in. */
export interface OfSheet {
  readonly patientId: string
  readonly sheetId: number
  readonly emergencyId?: number
}

/** What is logged of the sheets for talking with a patient. What they say is clinical and stays with them. */
export type SheetEvent =
  | { readonly action: 'sheet-drafted'; readonly patientId: string }
  | ({ readonly action: 'sheet-opened' } & OfSheet)
  | ({ readonly action: 'sheet-printed' } & OfSheet)
  /** `after` is the SHA-256 of the sheet as released. */
  | ({ readonly action: 'sheet-released'; readonly after: string } & OfSheet)
  /** Its reason is a person's free text and stays with the sheet. `before` and `after` are the SHA-256 of the stored row. */
  | ({ readonly action: 'sheet-withdrawn'; readonly before: string; readonly after: string } & OfSheet)
