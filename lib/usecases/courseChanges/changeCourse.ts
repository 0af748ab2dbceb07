import { courseInForce } from '../../course/index.ts'
import { type CourseEvent, type CourseWord, changesInForce, matterOf, toldOf } from '../../results/index.ts'
import type { Reader } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { keepProposal } from '../proposals/keepProposal.ts'
import { type Judge, refuse } from '../proposals/proposal.ts'
import { cliniciansOf } from './cliniciansOf.ts'
import { proposedChange } from './proposedChange.ts'
import { recordHolding } from './recordHolding.ts'
import { type WishedChange, wordOf } from './wish.ts'
import { wordNotes, wordProblem } from './wordProblem.ts'

export interface CourseWish {
  readonly patientId: string
  readonly change: WishedChange
  readonly reason: string
  /** The stamp of the consequence that was shown; absent where none was. */
  readonly shown?: string | undefined
}

/** Whether an event of intake is the one a change speaks of. */
function isAbout(word: CourseWord): (event: CourseEvent) => boolean {
  if ('line' in word) return (event) => event.event === 'line-start' && event.line === word.line
  if (!('was' in word)) return () => false
  return (event) => (event.event === 'diagnosis' || event.event === 'phase') && event.phase === word.was.phase && event.on === word.was.on
}

function isNamedHere(reader: Reader, clinician: string): boolean {
  return cliniciansOf(reader).includes(clinician)
}

/** Judges a change against the course as it counts now; what intake told stays, and is kept with the change as told by then. */
export function judgeChange(wish: WishedChange): Judge<null> {
  return ({ course, known }, reader) => {
    const inForce = courseInForce(known)
    const nextLine = Math.max(0, ...course.lines.map(({ number }) => number)) + 1
    const word = wordOf(wish, { nextLine, clinician: known.patient.clinician })
    if ('reason' in word) return refuse('invalid', word.reason)
    const meansStepBack = 'stepsBack' in wish && wish.stepsBack
    const problem = wordProblem(word, course, inForce, meansStepBack)
    if (problem !== null) refuse('invalid', problem)
    if (word.kind === 'clinician-changed' && !isNamedHere(reader, word.clinician))
      refuse('invalid', `No clinician is called "${word.clinician}" here. Choose one that a patients file or an account names.`)
    const matter = matterOf(word)
    return proposedChange({
      record: recordHolding(reader, course.patient.id, isAbout(word)),
      change: word,
      told: toldOf(matter, known.events),
      before: changesInForce(known.courseChanges).findLast((change) => matterOf(change) === matter) ?? null,
      event: (changed) => ({ action: 'course-changed', ...changed }),
      notes: wordNotes(word, course),
    })
  }
}

/**
 * Changes the course of a patient by a physician's word, with the reason: a phase, a treatment line, the care, or the clinician. What came in stays as it
 * came and is shown beside it; what comes in later and says otherwise does not count until somebody takes the change back.
 */
export function changeCourse(call: Call, { patientId, change, reason, shown }: CourseWish): Promise<Outcome<null>> {
  return keepProposal(call, { permission: 'course.write', patientId, typed: reason, called: 'The reason', shown }, judgeChange(change))
}
