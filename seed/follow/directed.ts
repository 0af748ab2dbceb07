import type { Offset } from '../calendar.ts'
import type { DirectedVisit, Draw, Visit } from './visit.ts'

/** The visits a scenario fixes, as far as they fall after the diagnosis; everything the plan can ask for is drawn. */
export function directedVisits(visits: readonly DirectedVisit[], after: Offset, draws: readonly Draw[], treated: number): Visit[] {
  return visits
    .filter(({ daysAgo }) => -daysAgo > after)
    .map(({ daysAgo, changes = {}, elsewhere = false }) => ({ on: -daysAgo, draws, treated, changes, elsewhere }))
}

/** The day from which a scenario leaves no room for planned visits: some days before the first it fixes. */
export function plannedUntil(visits: readonly DirectedVisit[], gap: number): Offset {
  const first = visits[0]
  return first === undefined ? -1 : -first.daysAgo - gap
}
