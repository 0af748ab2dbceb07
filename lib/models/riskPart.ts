import type { Course, Sample } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { decimalText, type Holds, type Interval, isExact } from '../units/index.ts'

/** One factor or input of a risk model as a person checks it. */
export interface RiskPart {
  readonly input: string
  /** The value with its unit and the day it was measured; null where it is not known. */
  readonly value: string | null
  readonly on: Day | null
  /** What is asked of it. */
  readonly threshold: string
  /** Null where its input is not known. */
  readonly met: Holds | null
  /** Points it gives; null in models that count none, or where the input is not known. */
  readonly points: number | null
}

/** An interval as a person reads it: `14.2`, `at most 1`, `at least 5000`. */
export function intervalWords(value: Interval, unit: string): string {
  const after = unit === '' ? '' : ` ${unit}`
  if (isExact(value)) return `${decimalText(value.low)}${after}`
  return value.high === null ? `at least ${decimalText(value.low)}${after}` : `at most ${decimalText(value.high)}${after}`
}

/** A blood value of the staging with its day. */
export function sampleWords(sample: Sample | null, unit: string): Pick<RiskPart, 'value' | 'on'> {
  if (sample === null || sample.value === null) return { value: null, on: null }
  return { value: intervalWords(sample.value, unit), on: sample.on }
}

/** The genetics recorded, in the order they were. */
export function geneticsWords({ marrow }: Course): Pick<RiskPart, 'value' | 'on'> {
  const named = marrow.filter(({ abnormalities }) => abnormalities.length > 0)
  const last = named.at(-1)
  if (last === undefined) return { value: null, on: null }
  return { value: [...new Set(named.flatMap(({ abnormalities }) => abnormalities))].join(', '), on: last.on }
}
