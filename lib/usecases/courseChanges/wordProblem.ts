import { type Course, type CourseInForce, isActive, isKnownDrug } from '../../course/index.ts'
import type { CourseWord } from '../../results/index.ts'
import { type Day, earliestBirthDay } from '../../time/index.ts'
import { lineProblem } from './lineProblem.ts'
import { phaseProblem } from './phaseProblem.ts'

function dayProblem(on: Day, { patient, today }: Course): string | null {
  if (on > today) return `${on} is after today, ${today}: only what has happened is recorded.`
  return on < earliestBirthDay(patient.birthDate) ? `${on} is before the patient was born.` : null
}

function careProblem({ care, began }: Extract<CourseWord, { kind: 'care-changed' }>, course: Course): string | null {
  const { phase, line } = course
  if (phase === null || !isActive(phase.phase)) return 'Care is recorded in active disease only: record the phase first.'
  if (began < phase.since) return `The phase began on ${phase.since}: care cannot begin before it.`
  if (line === null && care !== 'off-treatment') return 'No treatment line is recorded: start the line instead.'
  const decides = line === null ? null : (line.end ?? line.start)
  if (line !== null && decides !== null && decides > began)
    return `Line ${line.number} ${line.end === null ? 'began' : 'ended'} on ${decides}, after that day, and would decide: correct the line instead.`
  const same = care === course.care && (course.careSince === null ? began === decides : began === course.careSince)
  return same ? 'Nothing would change: this is what counts now.' : null
}

/** What is wrong with what a physician would say of a course, in one sentence; null where it can be kept. Pure. */
export function wordProblem(word: CourseWord, course: Course, inForce: CourseInForce, meansStepBack: boolean): string | null {
  const on = 'began' in word ? word.began : 'ended' in word ? word.ended : null
  const impossible = on === null ? null : dayProblem(on, course)
  if (impossible !== null) return impossible
  if (word.kind === 'care-changed') return careProblem(word, course)
  if (word.kind === 'clinician-changed') return word.clinician === course.patient.clinician ? `${word.clinician} is the clinician already.` : null
  return 'line' in word ? lineProblem(word, course) : phaseProblem(word, course, inForce, meansStepBack)
}

/** What a physician should know beside the consequence: names of drugs Lowmark does not know, and a line before that has no end. */
export function wordNotes(word: CourseWord, { lines }: Course): readonly string[] {
  if (word.kind !== 'line-started' && word.kind !== 'line-corrected') return []
  const unknown = word.regimen.filter((drug) => !isKnownDrug(drug))
  const open = word.kind === 'line-started' ? lines.filter(({ end }) => end === null).at(-1) : undefined
  return [
    ...(unknown.length === 0 ? [] : [`Not a drug name Lowmark knows: ${unknown.join(', ')}. It is kept as typed; check the spelling of the INN.`]),
    ...(open === undefined ? [] : [`Line ${open.number} has no end on record. The new line counts all the same.`]),
  ]
}
