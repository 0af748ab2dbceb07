import {
  type Arithmetic,
  type Changes,
  changeSays,
  holdsSays,
  notAskedSays,
  standsFacts,
  standsSentence,
  sumOfFinding,
  sumsOf,
  unchangedSays,
  type WouldChange,
  whatWouldChange,
} from '../../look/index.ts'
import type { FollowUpPlan } from '../../plan/index.ts'
import { countingResults, type History } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import { modelViews } from './modelViews.ts'
import { twoDaysView } from './twoDaysView.ts'
import type { ChangesView, CompareWish, LookView } from './views.ts'

/** One patient's history, the plan in force and what is said of it on a day. */
export interface Looked {
  readonly history: History
  readonly plan: FollowUpPlan
  readonly assessment: Assessment
}

/** A wish to see two days side by side, and the plan in force on a day. */
export interface Comparing {
  readonly wish: CompareWish | null
  readonly planOn: (on: Day) => FollowUpPlan
}

function changesView(changes: Changes, isTold: (change: WouldChange) => boolean): ChangesView {
  const told = changes.changes.filter(isTold)
  const texts = (ofMarkers: boolean) => told.filter(({ what }) => (what === 'first-met') === ofMarkers).map(changeSays)
  return {
    window: changes.window,
    ofFindings: texts(false),
    ofMarkers: texts(true),
    holds: holdsSays(changes),
    besides: [unchangedSays(changes), notAskedSays(changes)].filter((text) => text !== null),
  }
}

function sampleDays({ known }: Assessment): readonly Day[] {
  return [...new Set(countingResults(known).map((result) => result.collected.on))].toSorted().toReversed()
}

interface Told {
  readonly change: (change: WouldChange) => boolean
  readonly sum: (sum: Arithmetic) => boolean
}

function lookOf(looked: Looked, { wish, planOn }: Comparing, isTold: Told): LookView {
  const { history, assessment } = looked
  const sums = sumsOf(assessment).filter(isTold.sum)
  return {
    stands: standsSentence(standsFacts(assessment)),
    changes: changesView(whatWouldChange(looked), isTold.change),
    ...modelViews(assessment),
    sums,
    sumOf: assessment.findings.map((finding) => sumOfFinding(finding, sums)),
    sampleDays: sampleDays(assessment),
    comparison: wish === null ? null : twoDaysView(history, planOn, assessment.asOf, wish),
  }
}

/** The look at one patient, with everything. Pure. */
export function lookView(looked: Looked, comparing: Comparing): LookView {
  return lookOf(looked, comparing, { change: () => true, sum: () => true })
}

// The creatinine from which filtration is too low tells, with the sex, the age to a year or two.
const tellsAge = (change: WouldChange): boolean => 'edge' in change && change.edge.analyte === 'creatinine'

/** The same for whoever may not know who it is: nothing from which the age follows. Pure. */
export function lookUnderPseudonym(looked: Looked, comparing: Comparing): LookView {
  return lookOf(looked, comparing, { change: (change) => !tellsAge(change), sum: (sum) => !sum.tellsAge })
}
