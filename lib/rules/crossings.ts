import type { Course } from '../course/index.ts'
import type { DueTest } from '../plan/index.ts'
import { addDays, type Day, laterDay } from '../time/index.ts'
import { atLeast } from '../units/index.ts'
import type { Finding } from './finding.ts'
import { type Path, type ProjectedCriterion, projectedCriteria } from './projectedLevels.ts'
import { type Projection, projected } from './projection.ts'

/** A criterion that no sample meets yet and that the line through the samples will: by which of its series last, and when. */
export interface Crossing {
  readonly path: Path
  readonly projection: Projection
  readonly due: DueTest
  /** The first day on which it is told. */
  readonly toldFrom: Day
}

function isMet({ rule, analyte }: ProjectedCriterion, found: readonly Finding[]): boolean {
  return found.some(
    (finding) =>
      finding.endedOn === null &&
      finding.rule === rule &&
      finding.evidence.some((evidence) => evidence.role === 'current' && evidence.analyte === analyte),
  )
}

const hasReached = ({ samples, level }: Path): boolean => {
  const latest = samples.at(-1)
  return latest !== undefined && atLeast(latest.value, level) === 'certain'
}

/** The series whose line meets its level last, where every one that is not there yet will; null where one will not. */
function lastToMeet({ thresholds }: Course, paths: readonly Path[]): Pick<Crossing, 'path' | 'projection'> | null {
  let last: Pick<Crossing, 'path' | 'projection'> | null = null
  for (const path of paths.filter((one) => !hasReached(one))) {
    const projection = projected(path.samples, path.level, thresholds)
    if (projection === null) return null
    if (last === null || projection.meetsOn > last.projection.meetsOn) last = { path, projection }
  }
  return last
}

/**
 * When a crossing is told: at once where it comes before the next due sample. Where that day passes without one, from the day on which the line has met
 * the level: the day of the crossing does not move with today.
 */
function toldFrom(meetsOn: Day, { dueOn }: DueTest, today: Day): Day {
  return meetsOn < dueOn ? today : laterDay(meetsOn, addDays(dueOn, 1))
}

/** Every crossing ahead by what was sampled so far; those told today have `toldFrom` at or before today. */
export function crossings(course: Course, due: readonly DueTest[], found: readonly Finding[]): readonly Crossing[] {
  return projectedCriteria(course).flatMap((criterion): Crossing[] => {
    const test = due.find(({ group }) => group === criterion.group)
    if (test === undefined || isMet(criterion, found)) return []
    const last = lastToMeet(course, criterion.paths)
    if (last === null) return []
    return [{ ...last, due: test, toldFrom: toldFrom(last.projection.meetsOn, test, course.today) }]
  })
}

/** The last day on which no further crossing is told; null where none is to come. */
export function crossingsHoldUntil(course: Course, due: readonly DueTest[], found: readonly Finding[]): Day | null {
  const ahead = crossings(course, due, found).filter((crossing) => crossing.toldFrom > course.today)
  const [next] = ahead.map((crossing) => crossing.toldFrom).sort()
  return next === undefined ? null : addDays(next, -1)
}
