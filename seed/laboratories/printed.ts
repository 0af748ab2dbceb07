import type { Measured } from '../kinetics/truth.ts'
import type { Laboratory } from './laboratory.ts'

/** A value as the report writes it. */
export interface Printed {
  readonly code: string
  readonly value: string
  readonly unit: string
}

/** Prints a value given in the unit kept; outside the range the laboratory can measure, as a limit. */
export function printed(laboratory: Laboratory, analyte: Measured, kept: number): Printed {
  const { code, unit, perKept, decimals, from, upTo } = laboratory.prints[analyte]
  const value = kept * perKept
  if (from !== undefined && value < from) return { code, unit, value: `<${from}` }
  if (upTo !== undefined && value > upTo) return { code, unit, value: `>${upTo}` }
  return { code, unit, value: value.toFixed(decimals) }
}

/** A serum M-protein as the report writes it: not found, seen only, or a number. */
export function printedMProtein(laboratory: Laboratory, kept: number, faintInWords: boolean): Printed {
  const number = printed(laboratory, 'serum-m-protein', kept)
  if (kept < 0.25) return { ...number, value: laboratory.words.absent, unit: '' }
  if (kept < 0.8 && faintInWords) return { ...number, value: laboratory.words.faint, unit: '' }
  return number
}
