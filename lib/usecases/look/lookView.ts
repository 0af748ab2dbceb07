import {
  type Changes,
  changeSays,
  holdsSays,
  notAskedSays,
  standsFacts,
  standsSentence,
  unchangedSays,
  type WouldChange,
  whatWouldChange,
} from '../../look/index.ts'
import type { FollowUpPlan } from '../../plan/index.ts'
import type { History } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { ChangesView, LookView } from './views.ts'

/** One patient's history, the plan in force and what is said of it on a day. */
export interface Looked {
  readonly history: History
  readonly plan: FollowUpPlan
  readonly assessment: Assessment
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

function lookOf(looked: Looked, isTold: (change: WouldChange) => boolean): LookView {
  return { stands: standsSentence(standsFacts(looked.assessment)), changes: changesView(whatWouldChange(looked), isTold) }
}

/** The look at one patient, with everything. Pure. */
export function lookView(looked: Looked): LookView {
  return lookOf(looked, () => true)
}

// The creatinine from which filtration is too low tells, with the sex, the age to a year or two.
const tellsAge = (change: WouldChange): boolean => 'edge' in change && change.edge.analyte === 'creatinine'

/** The same for whoever may not know who it is: nothing from which the age follows. Pure. */
export function lookUnderPseudonym(looked: Looked): LookView {
  return lookOf(looked, (change) => !tellsAge(change))
}
