import type { Day } from '../lib/time/index.ts'
import { calendar } from './calendar.ts'
import { castCohort, type Part } from './cast.ts'
import { chancesFrom } from './chance.ts'
import { leave } from './follow/leave.ts'
import type { Story } from './follow/story.ts'
import { tellActive } from './follow/tellActive.ts'
import { type Telling, tellPrecursor } from './follow/tellPrecursor.ts'
import { COURSE_COLUMNS, type CoursePiece } from './rows/courseRow.ts'
import { csvFile } from './rows/csvFile.ts'
import { PATIENT_COLUMNS, patientRow } from './rows/patientRow.ts'
import { resultFiles } from './rows/resultFiles.ts'
import { storyRows } from './rows/storyRows.ts'
import type { ActiveBase, PrecursorBase } from './scenarios/scenario.ts'

export interface CohortWish {
  /** At least 1. */
  readonly patients: number
  /** Years of history before `endsOn`, at least 1. */
  readonly years: number
  readonly seed: number
  /** The day the cohort is looked at: nothing in it is later. */
  readonly endsOn: Day
}

export interface Cohort {
  /** The files of intake in the order they are to be read: patients, course, results by laboratory. */
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[]
  /** What each patient is there to show; `quiet` for the majority. */
  readonly told: readonly { readonly patientId: string; readonly scenario: string }[]
}

function isPrecursor(base: PrecursorBase | ActiveBase): base is PrecursorBase {
  return base.phase === 'mgus' || base.phase === 'smouldering'
}

function tell(part: Part, telling: Telling): Story {
  if (part.scenario !== null) {
    const { base } = part.scenario
    return isPrecursor(base) ? tellPrecursor(base, telling) : tellActive(base, telling)
  }
  return leave(part.phase === 'active' ? tellActive({}, telling) : tellPrecursor(part, telling), telling.chance)
}

/**
 * An invented clinic: patients of an invented region, each with a clone that grows, makes protein and is treated, drawn from `seed`.
 * The same argument gives the same bytes. Throws RangeError for fewer than one patient or one year.
 */
export function inventCohort({ patients, years, seed, endsOn }: CohortWish): Cohort {
  if (!Number.isInteger(patients) || patients < 1) throw new RangeError('patients must be a whole number, at least 1')
  if (!(years >= 1 && years <= 40)) throw new RangeError('years must be from 1 to 40')
  const chances = chancesFrom(seed)
  const cast = castCohort(patients, chances.next().value)
  const dayOf = calendar(endsOn, years)
  const people = csvFile(PATIENT_COLUMNS)
  const course = csvFile(COURSE_COLUMNS)
  const results = resultFiles()
  let accessions = 0
  const told = cast.map((part, index) => {
    const chance = chances.next().value
    const id = `P-${String(index + 1).padStart(4, '0')}`
    const story = tell(part, { id, endsOn, years, scenario: part.scenario, chance })
    people.add([patientRow(story, dayOf)])
    if (part.scenario?.noCourse !== true) course.add(courseRows(id, story.course, dayOf))
    results.add(
      storyRows(story, dayOf, () => ++accessions, chance),
      { held: part.scenario?.heldRows === true, wrong: index === 0 },
    )
    return { patientId: id, scenario: part.scenario?.name ?? 'quiet' }
  })
  return { files: [{ name: 'patients.csv', bytes: people.bytes() }, { name: 'course.csv', bytes: course.bytes() }, ...results.files()], told }
}

function courseRows(id: string, pieces: readonly CoursePiece[], dayOf: (offset: number) => Day) {
  return pieces.toSorted((a, b) => a.on - b.on).map(({ on, ...cells }) => ({ patient_id: id, on: dayOf(on), ...cells }))
}
