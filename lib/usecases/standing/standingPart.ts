import { type CallApart, callApart } from '../apart.ts'
import type { Call, Outcome } from '../call.ts'
import { askInParts, membersOf, type Part } from '../inParts.ts'
import type { Progress } from '../intake/incoming.ts'
import { type Difference, differencesOf } from './differencesOf.ts'
import { renewPart } from './renewPart.ts'

type Task = 'renew' | 'recheck'

/** What a process apart that evaluates a part of the cohort is told: to keep the answers that no longer hold, or to hold every kept answer against a fresh one. */
export interface StandingPartRequest extends CallApart {
  readonly task: Task
  readonly part: Part
}

/** Has the whole cohort evaluated in so many processes. Answers the differences found; none where standings were renewed. */
export async function askStandingParts(call: Call, task: Task, count: number, onProgress?: (progress: Progress) => void): Promise<Difference[]> {
  const requestOf = (part: Part): StandingPartRequest => ({ ...callApart(call), task, part })
  return (await askInParts<readonly Difference[]>('standingPart.ts', count, requestOf, 'A part of the cohort was not evaluated.', onProgress)).flat()
}

/** What such a process does and answers. */
export async function standingPart(
  call: Call,
  { task, part }: Pick<StandingPartRequest, 'task' | 'part'>,
  onProgress?: (progress: Progress) => void,
): Promise<Outcome<readonly Difference[]>> {
  if (task === 'recheck') {
    const { reader } = call.store
    return { ok: true, value: await differencesOf(call, membersOf(reader.patientIds(), part), onProgress) }
  }
  await renewPart(call, part)
  return { ok: true, value: [] }
}
