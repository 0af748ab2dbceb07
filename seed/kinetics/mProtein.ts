import type { Offset } from '../calendar.ts'
import type { Disease } from '../disease/disease.ts'
import { HALF_LIFE_DAYS } from '../disease/isotype.ts'
import { cloneMass, type Stretch } from './clone.ts'

/**
 * Serum M-protein day by day from the first stretch to day 0, g/L: made in proportion to the clone's mass, lost by the half-life of
 * its isotype. An IgG lags weeks behind a clone that is killed; an IgA days; a free light chain (hours) not at all.
 * Returns a function from the day to the level.
 */
export function mProteinCurve(disease: Disease, clone: readonly Stretch[]): (on: Offset) => number {
  const { heavy } = disease.isotype
  const first = clone[0]?.from ?? 0
  if (heavy === 'none' || disease.serum === 0) return () => 0
  const lostADay = 1 - 0.5 ** (1 / HALF_LIFE_DAYS[heavy])
  const levels = new Float64Array(1 - first)
  let level = disease.serum * cloneMass(clone, first)
  for (let on = first; on <= 0; on += 1) {
    levels[on - first] = level
    level += lostADay * (disease.serum * cloneMass(clone, on) - level)
  }
  return (on) => levels[on - first] ?? 0
}
