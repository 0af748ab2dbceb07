import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import { activeDisease } from '../disease/activeDisease.ts'
import { type Stretch, untreated } from '../kinetics/clone.ts'
import { rateToReach } from '../kinetics/gompertz.ts'
import { inventPerson } from '../people/person.ts'
import type { CoursePiece } from '../rows/courseRow.ts'
import type { ActiveBase } from '../scenarios/scenario.ts'
import { activeCourse } from './activeCourse.ts'
import { activeVisits, drawsOn, FELT } from './activeVisits.ts'
import { diagnosedAgo, diagnosedOn } from './diagnosedOn.ts'
import { directedVisits, plannedUntil } from './directed.ts'
import { type CareNow, type Episode, episodesOf, quietResidue } from './episodes.ts'
import { drawLaboratory } from './laboratoryOf.ts'
import { precursorCourse, precursorVisits } from './precursorStory.ts'
import type { Story } from './story.ts'
import type { Telling } from './tellPrecursor.ts'
import type { Visit } from './visit.ts'

/** What an active course needs to know before it begins; drawn where no scenario says it. */
export type ActiveWish = Partial<ActiveBase>

/** Days without planned visits before the first one a scenario fixes. */
const ROOM: Readonly<Record<CareNow, number>> = { 'on-treatment': 22, maintenance: 60, 'off-treatment': 60 }

interface Before {
  readonly visits: readonly Visit[]
  readonly course: readonly CoursePiece[]
  readonly clone: readonly Stretch[]
}

const NOTHING_BEFORE: Before = { visits: [], course: [], clone: [] }

/** Smouldering years before the active ones, for a patient in whom the clone was seen growing. */
function smoulderingBefore(from: Offset, active: Offset, disease: Story['disease'], chance: Chance): Before {
  const span = { phase: 'smouldering' as const, risk: 'low' as const, from, until: active }
  const earlier = { ...disease, marrow: Math.min(disease.marrow, 18) }
  const rate = rateToReach(0.45, 1, 2, active - from)
  return { visits: precursorVisits(span, chance), course: precursorCourse(span, earlier, active, chance), clone: [untreated(from, 0.45, rate)] }
}

function withRegimen(episodes: readonly Episode[], regimen: string | undefined): readonly Episode[] {
  if (regimen === undefined) return episodes
  return episodes.map((episode, index) =>
    index < episodes.length - 1
      ? episode
      : { ...episode, lines: episode.lines.map((line, at) => (at < episode.lines.length - 1 ? line : { ...line, regimen })) },
  )
}

/** The story of an active myeloma: what came before, the treated years, and what its scenario adds. */
export function tellActive(wish: ActiveWish, { id, endsOn, years, scenario, chance }: Telling): Story {
  const fixed = scenario?.visits ?? []
  const first = wish.diagnosedAgo === undefined ? diagnosedOn(scenario === null ? 260 : 640, years, chance) : diagnosedAgo(wish.diagnosedAgo, years)
  const growing = scenario === null && first < -900 && chance.happens(0.15)
  const active = growing ? first + chance.whole(250, 500) : first
  const drawn = inventPerson(id, first, endsOn, chance)
  const person = scenario?.egfr === undefined ? drawn : { ...drawn, kidney: { ...drawn.kidney, egfr: scenario.egfr, lossAYear: 0.3 } }
  const disease = { ...activeDisease(chance), ...wish.disease }
  const care =
    wish.care ??
    chance.weighted<CareNow>([
      [42, 'on-treatment'],
      [38, 'maintenance'],
      [20, 'off-treatment'],
    ])
  const episodes = withRegimen(
    episodesOf(
      {
        first: active + chance.whole(7, 12),
        care,
        fit: person.ageAtEnd + first / 365.25 < 70,
        relapseMass: chance.between(0.4, 0.6),
        residue: wish.residue ?? quietResidue(disease, chance),
        lastLength: chance.whole(scenario === null ? 230 : 420, 640),
      },
      chance,
    ),
    wish.regimen,
  )
  const lines = episodes.flatMap((episode) => episode.lines)
  const before = growing ? smoulderingBefore(first, active, disease, chance) : NOTHING_BEFORE
  const { heavy, light } = disease.isotype
  const opening: CoursePiece = growing
    ? { on: active, event: 'phase', phase: 'active' }
    : { on: active, event: 'diagnosis', phase: wish.phase ?? 'active', heavy_chain: heavy, light_chain: light }
  const course = activeCourse(opening, disease, episodes, -1, chance).filter(({ event }) => !wish.bare || (event !== 'marrow' && event !== 'imaging'))
  const bone = care === 'on-treatment' && scenario === null && chance.happens(0.3)
  const makesUrine = disease.urine > 0
  return {
    person,
    disease,
    clone: [...before.clone, untreated(active, 1), ...episodes.map((episode) => episode.stretch)],
    visits: [
      ...before.visits,
      ...activeVisits(active, plannedUntil(fixed, ROOM[care]), lines, makesUrine, chance),
      ...directedVisits(fixed, active, drawsOn(care, Number.POSITIVE_INFINITY, makesUrine), FELT[care]),
    ],
    course: [
      ...before.course,
      ...course,
      ...(bone ? [{ on: (episodes.at(-1)?.stretch.from ?? active) + 14, event: 'bone-agent' as const, regimen: 'zoledronic acid' }] : []),
      ...(scenario?.course ?? []),
    ],
    ...drawLaboratory(first, chance),
    left: null,
  }
}
