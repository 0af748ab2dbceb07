import type { Sex } from '../../lib/results/index.ts'
import type { Measured } from '../kinetics/truth.ts'

/** How one laboratory prints one analyte. */
export interface Print {
  /** LOINC. */
  readonly code: string
  /** UCUM. */
  readonly unit: string
  /** Printed number = number in the unit kept x this. */
  readonly perKept: number
  readonly decimals: number
  /** Below this printed number it prints "<" and this number. */
  readonly from?: number
  /** Above this printed number it prints ">" and this number. */
  readonly upTo?: number
  readonly reference?: (sex: Sex) => readonly [low: string, high: string]
}

export interface Laboratory {
  readonly name: string
  /** Begins its accession numbers. */
  readonly mark: string
  /** How it tells an M-protein from the other globulins, and how it measures free light chains. */
  readonly methods: Readonly<Partial<Record<Measured, string>>>
  readonly prints: Readonly<Record<Measured, Print>>
  /** Its words for an M-protein it looked for and did not find, and for one it saw but could not quantify. */
  readonly words: { readonly absent: string; readonly faint: string }
  /** A band, as its immunofixation report writes it. */
  readonly band: (name: string) => string
  /** Writes the time of collection, not the day alone. */
  readonly writesTime: boolean
}
