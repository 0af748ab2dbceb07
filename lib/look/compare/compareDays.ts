import { type Course, MARKERS, type Measurement, type TreatmentLine } from '../../course/index.ts'
import { ANALYTES, type Analyte, type Care, type Phase } from '../../results/index.ts'
import { findingKey, sameSubject } from '../../review/index.ts'
import { type Finding, keptText, type Window } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import { type Decimal, decimalText, isExact, roundedText, unitWords } from '../../units/index.ts'
import { markerWords } from '../markerWords.ts'

/** One value as it stood on a day: the latest by then, and the day it was sampled. */
export interface ValueThen {
  readonly text: string
  readonly on: Day
}

/** A change between two values. `why` tells in words why a part is missing. */
export interface ChangeBetween {
  /** Decimal text with its sign, or a range in words. */
  readonly absolute: string | null
  /** To one decimal, half away from zero, with its sign. */
  readonly percent: string | null
  readonly why: string | null
}

export interface ComparedMarker {
  readonly name: string
  readonly unit: string
  readonly from: ValueThen | null
  readonly to: ValueThen | null
  readonly change: ChangeBetween
}

/** Where the patient stood on one of the days. */
export interface StoodOn {
  readonly on: Day
  readonly phase: Phase | null
  readonly care: Care | null
  readonly line: TreatmentLine | null
  readonly response: string | null
  readonly window: Window
}

export interface Comparison {
  readonly from: StoodOn
  readonly to: StoodOn
  readonly markers: readonly ComparedMarker[]
  /** Current findings: what the later day shows and the earlier did not, the other way round, and both. */
  readonly appeared: readonly Finding[]
  readonly ended: readonly Finding[]
  readonly stayed: readonly Finding[]
}

const signed = (text: string): string => (/^-|^0(\.0*)?$/.test(text) ? text : `+${text}`)

function rangeText(low: Decimal, high: Decimal | null): string {
  return high === null ? `at least ${signed(decimalText(low))}` : `${signed(decimalText(low))} to ${signed(decimalText(high))}`
}

/** The exact change from one value to another; a range where one is known only as a limit, no per cent of 0. */
export function changeBetween(from: Measurement | null, to: Measurement | null): ChangeBetween {
  if (from === null || to === null) return { absolute: null, percent: null, why: 'not measured by both days' }
  if (from === to) return { absolute: null, percent: null, why: 'the same sample' }
  const [before, after] = [from.value, to.value]
  if (!isExact(before) || !isExact(after)) {
    if (before.high === null) return { absolute: null, percent: null, why: 'the earlier value has no upper end' }
    const least = after.low.minus(before.high)
    const most = after.high === null ? null : after.high.minus(before.low)
    return { absolute: rangeText(least, most), percent: null, why: 'a value was reported as a limit: a range' }
  }
  const by = after.low.minus(before.low)
  const absolute = signed(decimalText(by))
  if (before.low.lte(0))
    return { absolute, percent: null, why: from.words === 'not detected' ? 'earlier value not detected' : 'earlier value not above 0' }
  return { absolute, percent: signed(roundedText(by.times(100).div(before.low), 1)), why: null }
}

interface Series {
  readonly name: string
  readonly unit: string
  readonly samples: readonly Measurement[]
}

const UNITS: Partial<Record<Analyte, string>> = {
  'kappa-flc': 'mg/L',
  'lambda-flc': 'mg/L',
  igg: 'g/L',
  iga: 'g/L',
  igm: 'g/L',
  igd: 'mg/L',
  'white-cells': '10*9/L',
  neutrophils: '10*9/L',
  platelets: '10*9/L',
  'ionised-calcium': 'mmol/L',
  albumin: 'g/L',
  'b2-microglobulin': 'mg/L',
  ldh: 'U/L',
  'circulating-plasma-cells': '%',
}

function marrowSeries({ marrow }: Course): Series {
  const samples = marrow.flatMap(({ on, percent }): Measurement[] =>
    percent === null ? [] : [{ on, value: percent, printed: null, comparator: null, words: null, laboratory: null, method: null, results: [] }],
  )
  return { name: 'marrow-plasma-cells', unit: '%', samples }
}

function seriesOf(course: Course): readonly Series[] {
  const markers = MARKERS.map((name) => course.markers[name])
  const others = ANALYTES.flatMap((name): Series[] => {
    const unit = UNITS[name]
    return unit === undefined
      ? []
      : [{ name, unit, samples: course.samplesOf(name).filter((sample): sample is Measurement => sample.value !== null) }]
  })
  return [...markers, ...others, marrowSeries(course)]
}

function then({ samples, unit }: Series, on: Day): readonly [Measurement | null, ValueThen | null] {
  const sample = samples.findLast((one) => one.on <= on)
  return sample === undefined ? [null, null] : [sample, { text: unitWords(keptText(sample, unit === '1' ? '' : unit).trim()), on: sample.on }]
}

function stood({ asOf, course, response, window }: Assessment): StoodOn {
  const { category, state, provisional } = response
  const told = category === null ? null : [category, state, provisional ? 'provisional' : null].filter((part) => part !== null).join(', ')
  return { on: asOf, phase: course.phase?.phase ?? null, care: course.care, line: course.line, response: told, window }
}

const without = (some: readonly Finding[], others: readonly Finding[]): readonly Finding[] =>
  some.filter((one) => !others.some((other) => sameSubject(findingKey(one), findingKey(other))))

/**
 * Two assessments of one patient side by side, the earlier first: every marker as it stood on each, the change between both samples, where the patient
 * stood, and which current findings came and went. By what is known today of what was sampled by then.
 */
export function compareDays(from: Assessment, to: Assessment): Comparison {
  const markers = seriesOf(to.course).flatMap((series): ComparedMarker[] => {
    const [before, then1] = then(series, from.asOf)
    const [after, then2] = then(series, to.asOf)
    if (after === null) return []
    return [
      {
        name: markerWords(series.name),
        unit: series.unit === '1' ? '' : unitWords(series.unit),
        from: then1,
        to: then2,
        change: changeBetween(before, after),
      },
    ]
  })
  return {
    from: stood(from),
    to: stood(to),
    markers,
    appeared: without(to.findings, from.findings),
    ended: without(from.findings, to.findings),
    stayed: to.findings.filter((one) => !without(to.findings, from.findings).includes(one)),
  }
}
