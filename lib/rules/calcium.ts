import { adjustedCalcium, type Course, type Measurement } from '../course/index.ts'
import { type Day, daysBetween } from '../time/index.ts'
import { above, anyHolds, atLeast, atMost, decimal, decimalText, type Holds, type Interval, isExact, roundedText } from '../units/index.ts'
import { when } from './cautions.ts'
import { evidenceOf, keptText, valueText } from './evidence.ts'
import { ratioOf } from './excess.ts'
import type { Window } from './finding.ts'
import type { Limited, Telling } from './limit.ts'
import { measured } from './measured.ts'
import { compared, type PublishedLimit, published } from './printedLimit.ts'
import type { About } from './runs.ts'

const UNIT = 'mmol/L'

/** Total or adjusted calcium above which it counts as raised (IMWG 2014, 2016). */
const RAISED: PublishedLimit = published(UNIT, { 'mmol/L': '2.75', 'mg/dL': '11' })
/** Total or adjusted calcium at which it is dangerous, mmol/L (common practice). */
export const DANGEROUS_CALCIUM = '3.0'
const DANGEROUS: PublishedLimit = published(UNIT, { 'mmol/L': DANGEROUS_CALCIUM, 'mg/dL': '12' })
/** How far above the laboratory's own upper limit counts as raised, mmol/L (IMWG 2014). */
export const CALCIUM_ABOVE_UPPER = '0.25'
const ABOVE_UPPER: PublishedLimit = published(UNIT, { 'mmol/L': CALCIUM_ABOVE_UPPER, 'mg/dL': '1' })
/** Upper limit of ionised calcium where the laboratory names none (from memory). */
const IONISED_UPPER = decimal('1.30')
const IONISED_COUNTS_DAYS = 7

/** One calcium with what was measured beside it. */
export interface CalciumReading {
  readonly sample: Measurement
  readonly albumin: Measurement | null
  /** Adjusted for the albumin of the same day, mmol/L. */
  readonly adjusted: Interval | null
}

function adjusted(calcium: Interval, albumin: Interval): Interval | null {
  if (albumin.high === null) return null
  return { low: adjustedCalcium(calcium.low, albumin.high), high: calcium.high === null ? null : adjustedCalcium(calcium.high, albumin.low) }
}

/** Adjusted calcium as a person reads it, to three decimals: two could print the limit for a value above it. */
function adjustedText(sample: Measurement, value: Interval): string {
  if (isExact(value)) return `${roundedText(value.low, 3)} ${UNIT}`
  return keptText({ ...sample, value, comparator: null }, UNIT)
}

/** Every calcium of the course, each with the albumin of its day. */
function calciumReadings(course: Course): readonly CalciumReading[] {
  const albumins = new Map(measured(course, 'albumin').map((sample) => [sample.on, sample]))
  return course.markers.calcium.samples.map((sample) => {
    const albumin = albumins.get(sample.on) ?? null
    return { sample, albumin, adjusted: albumin === null ? null : adjusted(sample.value, albumin.value) }
  })
}

/** The latest calcium with the albumin of its day; null without one. */
export function latestCalcium(course: Course): CalciumReading | null {
  return calciumReadings(course).at(-1) ?? null
}

type Bar = (of: Interval, limit: PublishedLimit['in'][string]) => Holds

function against(reading: CalciumReading, limit: PublishedLimit, bar: Bar, withAdjusted: boolean): Holds {
  const total = compared(reading.sample, limit)
  const kept = limit.in[UNIT]
  const byAdjusted = withAdjusted && reading.adjusted !== null && kept !== undefined ? bar(reading.adjusted, kept) : 'no'
  return anyHolds(bar(total.value, total.limit), byAdjusted)
}

function excessOver(reading: CalciumReading, limit: PublishedLimit, withAdjusted: boolean): number {
  const total = compared(reading.sample, limit)
  const kept = limit.in[UNIT]
  const byTotal = ratioOf(total.value.low, total.limit)
  return withAdjusted && reading.adjusted !== null && kept !== undefined ? Math.max(byTotal, ratioOf(reading.adjusted.low, kept)) : byTotal
}

/** A limit that lies above the laboratory's own upper one, in both units; null where the laboratory names none. */
function upperLimit({ sample }: CalciumReading): PublishedLimit | null {
  const upper = sample.results[0]?.referenceHigh ?? null
  const kept = ABOVE_UPPER.in[UNIT]
  if (upper === null || kept === undefined) return null
  const { unit, limit } = compared(sample, ABOVE_UPPER)
  const printed = unit === sample.printed?.printedUnit ? { [unit]: upper.printed.plus(limit) } : {}
  return { keptUnit: UNIT, in: { [UNIT]: upper.kept.plus(kept), ...printed } }
}

/** What one rule asks of a reading: whether it holds, and by how much the value exceeds the limit it exceeds most. */
export interface CalciumQuestion {
  readonly limit: PublishedLimit
  readonly holds: (reading: CalciumReading) => Holds
  readonly excess: (reading: CalciumReading) => number
}

/** Total calcium alone above the limit: what clinical relapse asks (IMWG 2016). */
export const totalRaised: CalciumQuestion = {
  limit: RAISED,
  holds: (reading) => against(reading, RAISED, above, false),
  excess: (reading) => excessOver(reading, RAISED, false),
}

/** Total or adjusted calcium at the level of danger. */
export const dangerous: CalciumQuestion = {
  limit: DANGEROUS,
  holds: (reading) => against(reading, DANGEROUS, atLeast, true),
  excess: (reading) => excessOver(reading, DANGEROUS, true),
}

/** Total or adjusted calcium above the limit, or far enough above the laboratory's own upper limit (IMWG 2014). */
export const raised: CalciumQuestion = {
  limit: RAISED,
  holds: (reading) => {
    const upper = upperLimit(reading)
    return anyHolds(against(reading, RAISED, above, true), upper === null ? 'no' : against(reading, upper, above, true))
  },
  excess: (reading) => {
    const upper = upperLimit(reading)
    return Math.max(excessOver(reading, RAISED, true), upper === null ? 0 : excessOver(reading, upper, true))
  },
}

function isNormal(ionised: Measurement): boolean {
  const upper = ionised.results[0]?.referenceHigh ?? null
  if (upper !== null && ionised.printed !== null) return atMost(ionised.printed.printed, upper.printed) === 'certain'
  return atMost(ionised.value, IONISED_UPPER) === 'certain'
}

/** The ionised calcium nearest to a day, at most 7 days before or after it, the later of two as near; null when it is above its limit or there is none. */
function normalIonised(course: Course, on: Day): Measurement | null {
  let nearest: Measurement | null = null
  for (const sample of measured(course, 'ionised-calcium')) {
    const distance = Math.abs(daysBetween(sample.on, on))
    if (distance > IONISED_COUNTS_DAYS) continue
    if (nearest === null || distance <= Math.abs(daysBetween(nearest.on, on))) nearest = sample
  }
  return nearest !== null && isNormal(nearest) ? nearest : null
}

function tellsCalcium(course: Course, reading: CalciumReading, question: CalciumQuestion, wanted: Window): Telling {
  const { sample, albumin, adjusted: byAlbumin } = reading
  const ionised = normalIonised(course, sample.on)
  const { limit: at, unit } = compared(sample, question.limit)
  const upper = sample.results[0]?.referenceHigh ?? null
  return {
    window: ionised === null ? wanted : 'next-visit',
    excess: question.excess(reading),
    cautions: when(ionised !== null, 'ionised-normal'),
    evidence: [
      ...(albumin === null ? [] : [evidenceOf('current', 'albumin', 'g/L', albumin)]),
      ...(ionised === null ? [] : [evidenceOf('current', 'ionised-calcium', UNIT, ionised)]),
    ],
    facts: {
      limit: `${decimalText(at)} ${unit}`,
      ...(albumin === null || byAlbumin === null ? {} : { adjusted: adjustedText(sample, byAlbumin), albumin: valueText(albumin, 'g/L') }),
      ...(upper === null || sample.printed === null ? {} : { upper: `${decimalText(upper.printed)} ${sample.printed.printedUnit}` }),
      ...(ionised === null ? {} : { ionised: valueText(ionised, UNIT), ionisedOn: ionised.on }),
    },
  }
}

/** One calcium rule over the whole series: total is shown beside adjusted calcium, and a normal ionised calcium makes it a note for the next visit. */
export function calciumLimit(course: Course, about: About, question: CalciumQuestion, wanted: Window): Limited {
  const readings = calciumReadings(course)
  const readingAt = (sample: Measurement, at: number) => readings[at] ?? { sample, albumin: null, adjusted: null }
  return {
    about,
    of: course.markers.calcium,
    holds: (sample, at) => question.holds(readingAt(sample, at)),
    tells: (sample, at) => tellsCalcium(course, readingAt(sample, at), question, wanted),
  }
}
