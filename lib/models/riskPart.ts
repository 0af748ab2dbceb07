import type { Course, Sample } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { decimalText, type Holds, type Interval, isExact } from '../units/index.ts'
import { cytogeneticsOf } from './cytogenetics.ts'

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

/** The abnormalities a model may ask for, by their own names: never the words they were recorded in. */
const ASKED_FOR = ['t(4;14)', 't(14;16)', 't(14;20)', 'del(13q)', '1q gain', 'tp53 mutation', 'del(17p)'] as const

/** The genetics recorded, as far as a model asks for them, and the day of the last that were. */
export function geneticsWords(course: Course): Pick<RiskPart, 'value' | 'on'> {
  const genetics = cytogeneticsOf(course)
  const last = course.marrow.findLast(({ abnormalities }) => abnormalities.length > 0)
  if (genetics === null || last === undefined) return { value: null, on: null }
  const names = [...ASKED_FOR.filter((name) => genetics.has(name)), ...(genetics.del1p32 === null ? [] : [`${genetics.del1p32} del(1p32)`])]
  return { value: names.length === 0 ? 'none of those a model asks for' : names.join(', '), on: last.on }
}
