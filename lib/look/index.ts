/** The physician's look at one patient: where they stand in a sentence, what would change that, and how each number was computed. Sees assessments, changes none. */

export type { WouldChange } from './change/change.ts'
export { changeSays, holdsSays, notAskedSays, unchangedSays } from './change/changeWords.ts'
export { type Changes, whatWouldChange } from './change/wouldChange.ts'
export { type ChangeBetween, type ComparedMarker, type Comparison, changeBetween, compareDays, type StoodOn } from './compare/compareDays.ts'
export { leadingMarkers } from './leading.ts'
export { type StandsFacts, standsFacts } from './stands/standsFacts.ts'
export { standsSentence } from './stands/standsWords.ts'
export type { Arithmetic, Step } from './sums/arithmetic.ts'
export { sumOfFinding } from './sums/sumOfFinding.ts'
export { sumsOf } from './sums/sumsOf.ts'
