import type { Measurement } from '../course/index.ts'
import type { MannKendall } from '../statistics/index.ts'

type Ends = readonly [low: number, high: number] | null

const DAYS = 30
/** With so many samples the test can say something at all: four in perfect order have p = 0.09. */
const FEWEST_FOR_DIRECTION = 5
const USUAL_P = 0.05

/** ln(value) a day as per cent in 30 days: "+4.1 %". */
function percent(slope: number): string {
  const change = (Math.expm1(slope * DAYS) * 100).toFixed(1)
  return `${change.startsWith('-') || Number(change) === 0 ? '' : '+'}${Number(change) === 0 ? '0.0' : change} %`
}

/** The fitted change with its 95 % interval. */
export function changeText(slope: number, interval: Ends): string {
  return interval === null ? percent(slope) : `${percent(slope)} (95 % interval ${percent(interval[0])} to ${percent(interval[1])})`
}

/** The robust change; its interval needs six samples. */
export function robustText(slope: number, interval: Ends): string {
  return interval === null ? `${percent(slope)} (no interval from so few samples)` : changeText(slope, interval)
}

function daysText(slope: number, [low, high]: NonNullable<Ends>): string {
  const days = (rate: number) => Math.round(Math.LN2 / Math.abs(rate))
  const [one, other] = [days(low), days(high)]
  return `${days(slope)} days (95 % interval ${Math.min(one, other)} to ${Math.max(one, other)})`
}

/** The doubling time with its interval, or why there is none. */
export function doublingText(slope: number, interval: Ends): string {
  if (interval === null || (interval[0] <= 0 && interval[1] >= 0)) return "no doubling time: the slope's interval includes 0"
  return slope > 0 ? daysText(slope, interval) : `no doubling time: the value falls, by half in ${daysText(slope, interval)}`
}

function probabilityText(p: number): string {
  if (p < 0.001) return 'p below 0.001'
  return `p about ${p.toFixed(p < 0.1 ? 3 : 2)}`
}

/** Mann-Kendall's answer in words. Its p is an approximation, rough for the few samples of a year. */
export function directionText({ s, p }: MannKendall, samples: number): string {
  if (samples < FEWEST_FOR_DIRECTION) return `too few samples to tell a direction from chance (${probabilityText(p)})`
  if (p >= USUAL_P) return `no direction that chance could not make (${probabilityText(p)})`
  return `${s > 0 ? 'rises' : 'falls'}: chance alone would seldom do that (${probabilityText(p)})`
}

interface Cautioned {
  readonly recent: readonly Measurement[]
  readonly fitted: number
  readonly slopes: readonly [fit: number, robust: number] | null
}

const changes = (names: readonly (string | null)[]): boolean => new Set(names.filter((name) => name !== null)).size > 1

/** What to hold against a trend before it is believed. */
export function trendCautions({ recent, fitted, slopes }: Cautioned): readonly string[] {
  const leftOut = recent.length - fitted
  const cautions: string[] = []
  if (fitted < 3) cautions.push('Fewer than 3 samples with an exact value above 0: no trend can be told.')
  if (slopes !== null && slopes[0] * slopes[1] < 0)
    cautions.push('The two slopes point in opposite directions: a single sample may have turned the fit.')
  if (changes(recent.map(({ laboratory }) => laboratory)))
    cautions.push('The laboratory changes within these samples: part of the slope may be the change.')
  if (changes(recent.map(({ method }) => method))) cautions.push('The method changes within these samples: part of the slope may be the change.')
  if (leftOut > 0) cautions.push(`Left out, because it has no exact value above 0: ${leftOut} of ${recent.length} samples.`)
  return cautions
}
