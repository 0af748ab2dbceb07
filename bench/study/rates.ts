import { poissonInterval, wilsonInterval } from '../../lib/statistics/index.ts'

/** Events per 100 patient-years, with the exact Poisson 95 % interval. */
export interface Rate {
  readonly events: number
  readonly years: number
  readonly per100: number
  readonly low: number
  readonly high: number
}

/** A share with its Wilson 95 % interval. */
export interface Share {
  readonly of: number
  readonly total: number
  readonly share: number
  readonly low: number
  readonly high: number
}

/** Throws RangeError where nobody was followed. */
export function rateOf(events: number, years: number): Rate {
  if (!(years > 0)) throw new RangeError('nobody was followed')
  const [low, high] = poissonInterval(events).map((count) => (100 * count) / years) as [number, number]
  return { events, years, per100: (100 * events) / years, low, high }
}

/** Throws RangeError for nobody. */
export function shareOf(of: number, total: number): Share {
  const [low, high] = wilsonInterval(of, total)
  return { of, total, share: of / total, low, high }
}
