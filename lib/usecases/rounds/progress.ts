import { ANSWER_KINDS } from '../../results/index.ts'
import type { AnswerMade, Reader } from '../../store/index.ts'
import { keyDigest } from '../standing/openFindings.ts'
import type { AnsweredView, RoundProgress } from './views.ts'

/** What these answers answered: the digests of the findings' keys by patient. */
export function answeredKeys(made: readonly AnswerMade[]): ReadonlyMap<string, ReadonlySet<string>> {
  const answered = new Map<string, Set<string>>()
  for (const { patientId, findingKey } of made) answered.set(patientId, (answered.get(patientId) ?? new Set()).add(keyDigest(findingKey)))
  return answered
}

/** How many patients and findings these answers answered, by kind, in the order the kinds are offered; what has no kind comes last. */
export function answeredByKind(made: readonly AnswerMade[]): AnsweredView[] {
  return [...ANSWER_KINDS, null].flatMap((kind) => {
    const own = made.filter(({ did }) => did === kind)
    const findings = new Set(own.map(({ patientId, findingKey }) => `${patientId} ${findingKey}`)).size
    return own.length === 0 ? [] : [{ kind, patients: new Set(own.map(({ patientId }) => patientId)).size, findings }]
  })
}

/**
 * How far a round is; `endOf` names it where it ended, null is now. A patient is done when somebody answered in it and all that is open of the patient was answered in it: a danger stays open whatever is
 * answered. `open` is how many have something open.
 */
export function progressOf(reader: Reader, answered: ReadonlyMap<string, ReadonlySet<string>>, endOf: number | null, open: number): RoundProgress {
  const openOf = reader.openKeys([...answered.keys()], endOf)
  const done = [...answered].filter(([patientId, keys]) => (openOf.get(patientId) ?? []).every((key) => keys.has(key)))
  const doneAndOpen = done.filter(([patientId]) => (openOf.get(patientId) ?? []).length > 0)
  return { done: done.length, of: open + done.length - doneAndOpen.length }
}
