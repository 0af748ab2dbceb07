import type { Chance } from '../chance.ts'
import type { Disease } from './disease.ts'
import type { Isotype } from './isotype.ts'

/** How closely a precursor is followed: by its risk factors (clinical plan, IMWG 2010). */
export type PrecursorRisk = 'low' | 'other'

function within(low: number, value: number, high: number): number {
  return Math.min(high, Math.max(low, value))
}

function background(chance: Chance) {
  const lambda = chance.between(10, 15)
  return { kappa: lambda * chance.between(0.8, 1.1), lambda }
}

/**
 * MGUS: a small flat clone. `low` has no risk factor of Rajkumar 2005: below 15 g/L, IgG, a normal ratio, and stays clear of each limit; `other`
 * has one that no variation hides.
 */
export function mgusDisease(risk: PrecursorRisk, chance: Chance): Disease {
  const light = chance.happens(0.6) ? 'kappa' : 'lambda'
  const heavy: Isotype['heavy'] =
    risk === 'low'
      ? 'G'
      : chance.weighted([
          [50, 'G'],
          [22, 'A'],
          [18, 'M'],
          [10, 'none'],
        ])
  const bare = heavy === 'none'
  return {
    isotype: { heavy, light },
    serum: bare ? 0 : within(2, chance.logNormal(7, 0.5), risk === 'low' ? 11 : 16),
    urine: 0,
    freeLight: risk === 'low' ? chance.between(0, 2) : bare || heavy === 'G' ? chance.between(35, 75) : within(3, chance.logNormal(22, 0.7), 75),
    background: background(chance),
    marrow: chance.between(2, 8),
    paresis: chance.between(0, 0.2),
    anaemia: chance.between(0, 3),
    abnormalities: [],
  }
}

/**
 * Smouldering: a larger flat clone. `low` has at most one factor of 20/2/20 (Mateos 2020), `other` at least two, and both stay clear
 * of the thresholds of organ damage.
 */
export function smoulderingDisease(risk: PrecursorRisk, chance: Chance): Disease {
  const low = risk === 'low'
  return {
    isotype: {
      heavy: chance.weighted([
        [70, 'G'],
        [30, 'A'],
      ]),
      light: chance.happens(0.6) ? 'kappa' : 'lambda',
    },
    serum: low ? chance.between(8, 16) : chance.between(25, 27.5),
    urine: 0,
    freeLight: low ? chance.between(15, 80) : chance.between(220, 320),
    background: background(chance),
    marrow: low ? chance.between(11, 17) : chance.between(23, 35),
    paresis: chance.between(0.05, 0.3),
    anaemia: chance.between(2, 7),
    abnormalities: low || chance.happens(0.6) ? [] : [chance.oneOf(['t(4;14)', '1q gain', 'del(13q)', 't(11;14)'])],
  }
}
