import type { MonthChart } from '../../followup/index.ts'
import { type ControlPoint, laneyChart, pChart, type Sample, sigmaZByChance, wilsonInterval } from '../../statistics/index.ts'

/** A month with what it is held against, all as fractions. */
export interface HeldMonth {
  readonly month: string
  readonly due: number
  readonly onTime: number
  /** Null, as all that follows, in a month in which nothing was due. */
  readonly share: number | null
  readonly wilson95: readonly [low: number, high: number] | null
  /** The limits of chance alone; null on a side on which no share could lie beyond. */
  readonly low: number | null
  readonly high: number | null
  /** Laney's limits, where the months vary more than chance alone makes them. */
  readonly wide: readonly [low: number | null, high: number | null] | null
  /** Beyond a limit of chance alone. */
  readonly signal: ControlPoint['signal']
  /** Beyond every limit that is drawn. */
  readonly standsOut: boolean
}

export interface MonthLimits {
  readonly centre: number
  readonly months: readonly HeldMonth[]
  /** Laney's sigma z, and the one chance seldom exceeds; null where they cannot be told. */
  readonly sigmaZ: number | null
  readonly seldomAbove: number | null
  /** The months vary more than chance alone would make them. */
  readonly wider: boolean
}

const drawn = ({ low, high, lowCut, highCut }: ControlPoint): readonly [number | null, number | null] => [lowCut ? null : low, highCut ? null : high]

/** Laney's sigma z, and whether chance alone seldom gives so much. */
function variation(samples: readonly Sample[]): Pick<MonthLimits, 'sigmaZ' | 'seldomAbove'> & { readonly seldom: boolean } {
  const sampled = samples.filter(({ of }) => of > 0)
  const [sigmaZ, seldomAbove] = [laneyChart(sampled)?.sigmaZ ?? null, sigmaZByChance(sampled.length)]
  return { sigmaZ, seldomAbove, seldom: sigmaZ !== null && seldomAbove !== null && sigmaZ > seldomAbove }
}

// One month far out widens the limits it is held against, through the steps to it and from it: it is what the chart is to find, and no variation of all months.
function withoutFurthest(samples: readonly Sample[], centre: number): readonly Sample[] {
  const distance = ({ count, of }: Sample): number => (of === 0 ? 0 : Math.abs(count / of - centre) * Math.sqrt(of))
  const furthest = samples.reduce((most, sample, at) => (distance(sample) > distance(samples[most] as Sample) ? at : most), 0)
  return samples.toSpliced(furthest, 1)
}

/**
 * Months with their limits: three standard deviations of a binomial share (NIST/SEMATECH e-Handbook, 6.3.3.2); where the months vary by more than chance makes them,
 * Laney's wider ones besides (Quality Engineering 2002;14:531). They do where sigma z is more than chance seldom exceeds, without the month that lies furthest out
 * too. Null where nothing was due.
 */
export function monthLimits({ points }: Pick<MonthChart, 'points'>): MonthLimits | null {
  const samples = points.map(({ onTime, due }) => ({ count: onTime, of: due }))
  const [binomial, laney] = [pChart(samples), laneyChart(samples)]
  if (binomial === null) return null
  const { sigmaZ, seldomAbove, seldom } = variation(samples)
  const wider = seldom && variation(withoutFurthest(samples, binomial.centre)).seldom
  const months = binomial.points.map((point, at): HeldMonth => {
    const { month = '', due = 0, onTime = 0, proportion: share = null } = points[at] ?? {}
    const [low, high] = drawn(point)
    const widened = wider ? (laney?.points[at] ?? null) : null
    const standsOut = (widened ?? point).signal !== null
    const wilson95 = due === 0 ? null : wilsonInterval(onTime, due)
    return { month, due, onTime, share, wilson95, low, high, wide: widened === null ? null : drawn(widened), signal: point.signal, standsOut }
  })
  return { centre: binomial.centre, months, sigmaZ, seldomAbove, wider }
}
