import type { Course, Mark, MarkerName, Measurement, PhaseSpan, TreatmentLine } from '../course/index.ts'
import { MARKERS } from '../course/index.ts'
import type { ResponseAssessment } from '../models/index.ts'
import type { DueTest, TestGroup } from '../plan/index.ts'
import type { Care } from '../results/index.ts'
import { whySentence } from '../review/index.ts'
import type { Finding, Window } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { decimalText } from '../units/index.ts'
import type { Assessment } from './assessment.ts'
import { findingPairs } from './findingPairs.ts'

/** Something as it stands now and as it would stand. */
export interface NowWould<T> {
  readonly now: T
  readonly would: T
}

/** What later samples of a marker are held against. */
export interface Marks {
  readonly baseline: Measurement | null
  readonly lowest: Mark | null
  readonly lowestConfirmed: Mark | null
}

/** What a proposed change would do on one day: everything that is said now beside everything that would be said. */
export interface Consequence {
  readonly window: NowWould<Window>
  readonly why: NowWould<string>
  readonly phase: NowWould<PhaseSpan | null>
  readonly care: NowWould<Care | null>
  readonly line: NowWould<TreatmentLine | null>
  readonly clinician: NowWould<string | null>
  /** Current findings that nobody is told now, that nobody would be told, and that would be told otherwise. */
  readonly appearing: readonly Finding[]
  readonly ending: readonly Finding[]
  readonly changing: readonly NowWould<Finding>[]
  /** Markers of which any of the three would be another. */
  readonly marks: readonly (NowWould<Marks> & { readonly marker: MarkerName; readonly unit: string })[]
  readonly response: NowWould<Pick<ResponseAssessment, 'category' | 'state' | 'provisional'>>
  /** Groups of tests of which the due day would be another; null where none is due. */
  readonly due: readonly (NowWould<Day | null> & { readonly group: TestGroup; readonly because: string })[]
}

const isCurrent = (finding: Finding | null): boolean => finding !== null && finding.endedOn === null

function findings(now: Assessment, would: Assessment): Pick<Consequence, 'appearing' | 'ending' | 'changing'> {
  const pairs = findingPairs([...now.findings, ...now.history], [...would.findings, ...would.history])
  const both = pairs.flatMap(({ before, since }) =>
    before !== null && since !== null && isCurrent(before) && isCurrent(since) ? [{ now: before, would: since }] : [],
  )
  return {
    appearing: pairs.flatMap(({ before, since }) => (since !== null && isCurrent(since) && !isCurrent(before) ? [since] : [])),
    ending: pairs.flatMap(({ before, since }) => (before !== null && isCurrent(before) && !isCurrent(since) ? [before] : [])),
    changing: both,
  }
}

function marksOf(course: Course, name: MarkerName): Marks {
  const { baseline, lowest, lowestConfirmed } = course.markers[name]
  return { baseline, lowest: lowest.at(-1) ?? null, lowestConfirmed: lowestConfirmed.at(-1) ?? null }
}

const levelText = ({ value: { low, high } }: Mark): string => `${decimalText(low)} ${high === null ? '' : decimalText(high)}`

// One value on one day is one mark, whichever stored version shows it.
function marksText({ baseline, lowest, lowestConfirmed }: Marks): string {
  const sample = (one: Measurement | null) => (one === null ? null : [one.on, levelText({ value: one.value, sample: one })])
  const mark = (one: Mark | null) => (one === null ? null : [one.sample.on, levelText(one)])
  return JSON.stringify([sample(baseline), mark(lowest), mark(lowestConfirmed)])
}

function marks(now: Course, would: Course): Consequence['marks'] {
  return MARKERS.flatMap((marker) => {
    const pair = { now: marksOf(now, marker), would: marksOf(would, marker) }
    return marksText(pair.now) === marksText(pair.would) ? [] : [{ marker, unit: would.markers[marker].unit, ...pair }]
  })
}

function due(now: readonly DueTest[], would: readonly DueTest[]): Consequence['due'] {
  const groups = [...new Set([...now, ...would].map(({ group }) => group))]
  return groups.flatMap((group) => {
    const [was, is] = [now, would].map((tests) => tests.find((test) => test.group === group))
    const pair = { now: was?.dueOn ?? null, would: is?.dueOn ?? null }
    return pair.now === pair.would ? [] : [{ group, ...pair, because: (is ?? was)?.because ?? '' }]
  })
}

/** What is said of a patient now beside what would be said with a change in the history, on the same day by the same plan. Pure. */
export function consequenceOf(now: Assessment, would: Assessment): Consequence {
  const both = <T>(of: (assessment: Assessment) => T): NowWould<T> => ({ now: of(now), would: of(would) })
  return {
    window: both(({ window }) => window),
    why: both(whySentence),
    phase: both(({ course }) => course.phase),
    care: both(({ course }) => course.care),
    line: both(({ course }) => course.line),
    clinician: both(({ course }) => course.patient.clinician),
    ...findings(now, would),
    marks: marks(now.course, would.course),
    response: both(({ response: { category, state, provisional } }) => ({ category, state, provisional })),
    due: due(now.due, would.due),
  }
}
