import type { Day } from '../../lib/time/index.ts'
import type { Chance } from '../chance.ts'
import { mgusDisease, smoulderingDisease } from '../disease/precursorDisease.ts'
import { untreated } from '../kinetics/clone.ts'
import { inventPerson } from '../people/person.ts'
import type { PrecursorBase, Scenario } from '../scenarios/scenario.ts'
import { diagnosedOn } from './diagnosedOn.ts'
import { directedVisits, plannedUntil } from './directed.ts'
import { drawLaboratory } from './laboratoryOf.ts'
import { precursorCourse, precursorVisits } from './precursorStory.ts'
import type { Story } from './story.ts'

export interface Telling {
  readonly id: string
  readonly endsOn: Day
  readonly years: number
  readonly scenario: Scenario | null
  readonly chance: Chance
}

/** No planned visit in the days before the first one a scenario fixes: more than the 90 a creatinine is looked back at. */
const ROOM = 100

/** The story of a precursor: a clone that stays as it is, visits at the plan's intervals, and what its scenario adds. */
export function tellPrecursor(base: PrecursorBase, { id, endsOn, years, scenario, chance }: Telling): Story {
  const fixed = scenario?.visits ?? []
  const from = diagnosedOn(scenario === null ? 40 : Math.max(560, (fixed[0]?.daysAgo ?? 0) + 200), years, chance)
  const person = inventPerson(id, from, endsOn, chance)
  const disease = base.phase === 'mgus' ? mgusDisease(base.risk, chance) : smoulderingDisease(base.risk, chance)
  const kappa = scenario?.visits.some(({ changes }) => changes?.['kappa-flc'] !== undefined) ?? false
  const made = kappa ? { ...disease, isotype: { ...disease.isotype, light: 'kappa' as const } } : disease
  const span = { phase: base.phase, risk: base.risk, from, until: plannedUntil(fixed, ROOM) }
  return {
    person,
    disease: made,
    clone: [untreated(from, 1)],
    visits: [...precursorVisits(span, chance), ...directedVisits(fixed, from, ['core', 'immunoglobulins'], 0)],
    course: [...precursorCourse(span, made, -1, chance), ...(scenario?.course ?? [])],
    ...drawLaboratory(from, chance),
    left: null,
  }
}
