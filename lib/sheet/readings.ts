import { type Course, hasNumber, isActive, lowest, type Marker, type Measurement, type Sample } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import type { Interval } from '../units/index.ts'
import type { SheetTest } from './sheetTest.ts'

/** The samples of one test, oldest first, and the lowest of the window of comparison. */
export interface Readings {
  readonly all: readonly Sample[]
  readonly lowest: Sample | null
  /** The first sample that window holds. */
  readonly from: Day | null
}

const NOTHING: Readings = { all: [], lowest: null, from: null }

/** The day from which the lowest is looked for where no marker looks for it: the line's start, else the diagnosis. */
function opensOn({ phase, line, diagnosedOn }: Course): Day | null {
  if (phase === null) return null
  if (isActive(phase.phase)) return line?.start ?? phase.since
  return diagnosedOn
}

function fromOpening(all: readonly Sample[], course: Course): Readings {
  const opens = opensOn(course)
  const within = opens === null ? [] : all.filter(hasNumber).filter(({ on }) => on >= opens)
  return { all, lowest: lowest(within).at(-1)?.sample ?? null, from: within[0]?.on ?? null }
}

function ofMarker(all: readonly Sample[], { lowest: marks, baseline }: Pick<Marker<string>, 'lowest' | 'baseline'>): Readings {
  return { all, lowest: marks.at(-1)?.sample ?? null, from: baseline?.on ?? null }
}

/** Plasma cells of 100 cells of the marrow; a day on which only words were recorded is none. */
function ofMarrow(course: Course): Readings {
  const asSample = (on: Day, value: Interval): Measurement => ({
    on,
    value,
    printed: { kept: value, printed: value, printedUnit: '%' },
    comparator: null,
    words: null,
    laboratory: null,
    method: null,
    results: [],
  })
  return fromOpening(
    course.marrow.flatMap(({ on, percent }) => (percent === null ? [] : [asSample(on, percent)])),
    course,
  )
}

/** What is known of one test of a patient. Excluded and withdrawn results make no sample, and so never stand here. */
export function readingsOf(test: SheetTest, course: Course): Readings {
  switch (test) {
    case 'involved-light-chain':
      return course.involved === null ? NOTHING : ofMarker(course.samplesOf(`${course.involved.chain}-flc`), course.markers['involved-flc'])
    case 'kappa-light-chain':
      return fromOpening(course.samplesOf('kappa-flc'), course)
    case 'lambda-light-chain':
      return fromOpening(course.samplesOf('lambda-flc'), course)
    case 'immunoglobulin': {
      const followed = course.immunoglobulin
      return followed === null ? NOTHING : ofMarker(followed.samples, followed)
    }
    case 'marrow':
      return ofMarrow(course)
    case 'neutrophils':
    case 'platelets':
      return fromOpening(course.samplesOf(test), course)
    default:
      return ofMarker(course.samplesOf(test), course.markers[test])
  }
}
