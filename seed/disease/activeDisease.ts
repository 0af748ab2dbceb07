import type { Chance } from '../chance.ts'
import type { Disease } from './disease.ts'
import type { Isotype } from './isotype.ts'

function within(low: number, value: number, high: number): number {
  return Math.min(high, Math.max(low, value))
}

/** Active myeloma as it stood at diagnosis; one in six makes light chains only. Medians and spreads: (ours). */
export function activeDisease(chance: Chance): Disease {
  const heavy: Isotype['heavy'] = chance.weighted([
    [58, 'G'],
    [23, 'A'],
    [1, 'D'],
    [18, 'none'],
  ])
  const bare = heavy === 'none'
  const serum = within(22, chance.logNormal(38, 0.35), 72)
  const freeLight = bare ? within(300, chance.logNormal(1500, 0.8), 8000) : within(20, chance.logNormal(150, 0.9), 1500)
  const urine = chance.happens(bare ? 0.6 : 0.25) ? within(220, chance.logNormal(bare ? 900 : 500, 0.6), 5000) : 0
  return {
    isotype: { heavy, light: chance.happens(0.6) ? 'kappa' : 'lambda' },
    serum: bare ? 0 : serum,
    urine,
    freeLight,
    background: { kappa: chance.between(9, 15), lambda: chance.between(10, 15) },
    marrow: chance.between(15, 70),
    paresis: chance.between(0.3, 0.7),
    anaemia: chance.between(10, 45),
    abnormalities: chance.weighted([
      [45, []],
      [15, ['t(11;14)']],
      [12, ['t(4;14)']],
      [10, ['1q gain']],
      [8, ['del(17p)']],
      [6, ['t(4;14)', '1q gain']],
      [4, ['t(14;16)']],
    ]),
  }
}
