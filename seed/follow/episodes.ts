import type { Intent } from '../../lib/results/index.ts'
import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import type { Disease } from '../disease/disease.ts'
import type { Stretch } from '../kinetics/clone.ts'
import { rateToReach } from '../kinetics/gompertz.ts'
import { continuousRegimen, fixedRegimen, maintenanceRegimen } from './regimens.ts'

export type CareNow = 'on-treatment' | 'maintenance' | 'off-treatment'

export interface LinePlan {
  readonly start: Offset
  readonly end: Offset | null
  readonly regimen: string
  readonly intent: Intent
}

/** From the start of a treatment to the relapse that ends its effect, or to the cohort's end. */
export interface Episode {
  readonly lines: readonly LinePlan[]
  readonly stretch: Stretch
}

export interface EpisodeWish {
  readonly first: Offset
  readonly care: CareNow
  /** Fit for a transplant in the first episode. */
  readonly fit: boolean
  /** Mass of the clone at the start of the last episode; those before it relapse to this. */
  readonly relapseMass: number
  /** Mass of the clone that the last episode leaves behind for good. */
  readonly residue: number
  readonly lastLength: number
}

const CAPACITY = 2

/** Days of each episode, oldest first, the last of the length wished for where the years suffice. */
function lengths(available: number, last: number, chance: Chance): number[] {
  let before = available - last
  if (before < 380) return [available]
  const earlier: number[] = []
  while (before > 1300) {
    const length = chance.whole(420, 900)
    earlier.push(length)
    before -= length
  }
  return [...earlier, before, last]
}

function linesOf(start: Offset, until: Offset, isLast: boolean, isFirst: boolean, wish: EpisodeWish, chance: Chance): LinePlan[] {
  const intent: Intent = isFirst ? 'induction' : 'relapse'
  if (isLast && wish.care === 'on-treatment') return [{ start, end: null, regimen: continuousRegimen(isFirst, chance), intent }]
  const longest = Math.floor((until - start) * 0.45)
  const end = start + Math.min(longest, chance.whole(112, 170))
  const lines: LinePlan[] = [{ start, end, regimen: fixedRegimen(isFirst, chance), intent }]
  let free = end
  if (isFirst && wish.fit && until - end > 200) {
    lines.push({ start: end + 21, end: end + 96, regimen: 'melphalan', intent: 'transplant' })
    free = end + 96
  }
  const maintained = isLast ? wish.care === 'maintenance' : chance.happens(0.8)
  if (maintained) lines.push({ start: free + 12, end: isLast ? null : until - 4, regimen: maintenanceRegimen(chance), intent: 'maintenance' })
  return lines
}

/**
 * The treated years of an active course. In every episode but the last the resistant part grows along a Gompertz curve until the
 * relapse; in the last it stays where treatment left it, so that a course is quiet today unless a scenario says otherwise.
 */
export function episodesOf(wish: EpisodeWish, chance: Chance): Episode[] {
  const all = lengths(-wish.first, wish.lastLength, chance)
  let start = wish.first
  let mass = 1
  return all.map((length, index) => {
    const isLast = index === all.length - 1
    const residue = isLast ? wish.residue : chance.between(0.01, 0.08)
    const rate = isLast ? 0 : rateToReach(residue, wish.relapseMass, CAPACITY, length)
    const stretch: Stretch = {
      from: start,
      sensitive: mass - residue,
      kill: chance.between(0.03, 0.06),
      resistant: residue,
      growth: { rate, capacity: CAPACITY },
    }
    const episode = { lines: linesOf(start, start + length, isLast, index === 0, wish, chance), stretch }
    start += length
    mass = wish.relapseMass
    return episode
  })
}

/**
 * What treatment leaves of a quiet patient's clone: drawn from shallow to very deep, but never so much that variation from sample to
 * sample alone would reach a criterion of progression. A truly flat course sampled every 28 days for two years shows an unconfirmed
 * `pd-serum` at its last sample in 3 % of patients at 15 g/L, 12 % at 20 and about 22 % from 25 on; involved light chains of 150 mg/L in
 * 16 to 22 %, 300 mg/L in about half; a urine M-protein of 300 mg/24 h in 24 % (simulated with the variation of Katzmann 2011 and these
 * rules). Such patients exist; here they would drown the rest, so a quiet patient's residue stays below those levels.
 */
export function quietResidue(disease: Disease, chance: Chance): number {
  const drawn = 10 ** -chance.between(0.5, 3)
  const limits = [8 / disease.serum, 40 / disease.freeLight, 60 / disease.urine].filter(Number.isFinite)
  return Math.min(drawn, ...limits)
}
