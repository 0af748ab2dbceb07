import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import type { CareNow, LinePlan } from './episodes.ts'
import { nextVisit } from './spacing.ts'
import type { Draw, Visit } from './visit.ts'

const INTERVAL: Readonly<Record<CareNow, number>> = { 'on-treatment': 28, maintenance: 84, 'off-treatment': 84 }
/** How much of treatment marrow and blood count feel (ours). */
export const FELT: Readonly<Record<CareNow, number>> = { 'on-treatment': 1, maintenance: 0.4, 'off-treatment': 0 }

/** How many days before a treatment line starts its first blood is drawn. */
const BEFORE_LINE = 2

export function careOn(lines: readonly LinePlan[], on: Offset): CareNow {
  const line = lines.findLast(({ start }) => start <= on + BEFORE_LINE)
  if (line === undefined || (line.end !== null && line.end <= on)) return 'off-treatment'
  return line.intent === 'maintenance' ? 'maintenance' : 'on-treatment'
}

/** Wider tests at every visit 84 days apart; on treatment, at every third (urine, immunoglobulins: every 84 days). */
export function drawsOn(care: CareNow, sinceWider: number, makesUrine: boolean): Draw[] {
  const draws: Draw[] = ['core', 'immunofixation']
  if (care === 'on-treatment' && sinceWider < 55) return draws
  return [...draws, 'immunoglobulins', 'urine-immunofixation', ...(makesUrine ? ['urine' as const] : [])]
}

/** The planned visits of an active course: at diagnosis, before each line, and at the interval of the care of the day. */
export function activeVisits(from: Offset, until: Offset, lines: readonly LinePlan[], makesUrine: boolean, chance: Chance): Visit[] {
  const visits: Visit[] = []
  let on = from
  let wider = Number.NEGATIVE_INFINITY
  while (on < until) {
    const care = careOn(lines, on)
    const draws = drawsOn(care, on - wider, makesUrine)
    if (draws.includes('immunoglobulins')) wider = on
    visits.push({ on, draws: visits.length === 0 ? [...draws, 'staging'] : draws, treated: FELT[care], changes: {}, elsewhere: false })
    const planned = nextVisit(on, INTERVAL[care], until, chance)
    const starting = lines.find(({ start }) => start - BEFORE_LINE > on && start - BEFORE_LINE <= planned)
    on = starting === undefined ? planned : starting.start - BEFORE_LINE
  }
  return visits
}
