import { type Decimal, decimal, decimalText, roundedText } from '../../units/index.ts'
import type { Step } from './arithmetic.ts'

/** A number inside a step: a negative one in brackets. */
export function num(value: Decimal): string {
  return value.lt(0) ? `(${decimalText(value)})` : decimalText(value)
}

/** A step whose result is exact. */
export function exactStep(label: string, put: string, result: Decimal, unit = ''): Step {
  return { label, put, result: decimalText(result), unit, places: null }
}

/** A step whose result is rounded. */
export function roundedStep(label: string, put: string, result: Decimal, places: number, unit = ''): Step {
  return { label, put, result: roundedText(result, places), unit, places }
}

/** A step on ordinary numbers: powers and logarithms have no exact decimal. */
export function numberStep(label: string, put: string, result: number, places: number, unit = ''): Step {
  return roundedStep(label, put, decimal(result.toFixed(12)), places, unit)
}
