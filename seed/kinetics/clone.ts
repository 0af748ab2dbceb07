import type { Offset } from '../calendar.ts'
import { gompertz } from './gompertz.ts'

/** The clone from one day on: what the treatment kills and what withstands it. Masses are parts of the mass at diagnosis. */
export interface Stretch {
  readonly from: Offset
  readonly sensitive: number
  /** Part of the sensitive mass lost, per day. */
  readonly kill: number
  readonly resistant: number
  readonly growth: { readonly rate: number; readonly capacity: number }
}

export function massIn(stretch: Stretch, on: Offset): number {
  const days = on - stretch.from
  const { rate, capacity } = stretch.growth
  return stretch.sensitive * Math.exp(-stretch.kill * days) + gompertz(stretch.resistant, capacity, rate, days)
}

/** The clone's mass on a day; `stretches` oldest first, the first beginning at the diagnosis. */
export function cloneMass(stretches: readonly Stretch[], on: Offset): number {
  const current = stretches.findLast((stretch) => stretch.from <= on) ?? stretches[0]
  return current === undefined ? 0 : massIn(current, on)
}

/** A clone that stays as it is, or grows along a Gompertz curve when a rate is given. */
export function untreated(from: Offset, mass: number, rate = 0, capacity = 2): Stretch {
  return { from, sensitive: 0, kill: 0, resistant: mass, growth: { rate, capacity } }
}
