import { setImmediate as othersTurn } from 'node:timers/promises'
import type { FollowUpPlan } from '../../plan/index.ts'
import { whySentence } from '../../review/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Reader } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import type { Progress } from '../intake/incoming.ts'
import { personName } from '../personName.ts'
import type { TriedPatient, TriedPlan } from './views.ts'

/** Two plans to be held against every followed patient on one day. */
export interface Trial {
  readonly before: FollowUpPlan
  readonly after: FollowUpPlan
  readonly on: Day
}

// Between two words of progress, and between two looks at what else waits in this process.
const AT_A_TIME = 25

function moved(before: Assessment, after: Assessment): TriedPatient {
  const { patient } = before.course
  return {
    patientId: patient.id,
    name: personName(patient),
    before: before.window,
    after: after.window,
    whyBefore: whySentence(before),
    whyAfter: whySentence(after),
  }
}

function sameDue(before: Assessment, after: Assessment): boolean {
  const days = ({ due }: Assessment) => JSON.stringify(due.map(({ group, dueOn, graceEndsOn }) => [group, dueOn, graceEndsOn]))
  return days(before) === days(after)
}

/** How the windows of everybody followed on that day would change. Reads histories as they are; changes nothing. */
export async function tryOverCohort(
  reader: Pick<Reader, 'patientIds' | 'loadCounted'>,
  { before, after, on }: Trial,
  onProgress?: (progress: Progress) => void,
): Promise<Pick<TriedPlan, 'evaluated' | 'dueChanged' | 'counts'> & { readonly moved: readonly TriedPatient[] }> {
  const patientIds = reader.patientIds()
  const counts = new Map<string, TriedPlan['counts'][number]>()
  const all: TriedPatient[] = []
  let dueChanged = 0
  for (const [index, patientId] of patientIds.entries()) {
    const history = reader.loadCounted(patientId)?.history
    const now = history === undefined ? null : assess(history, before, on)
    if (history !== undefined && now !== null && now.course.leftOn === null) {
      const then = assess(history, after, on)
      const pair = `${now.window} ${then.window}`
      counts.set(pair, { before: now.window, after: then.window, patients: (counts.get(pair)?.patients ?? 0) + 1 })
      if (now.window !== then.window) all.push(moved(now, then))
      else if (!sameDue(now, then)) dueChanged += 1
    }
    if ((index + 1) % AT_A_TIME === 0) {
      onProgress?.({ step: 'patients evaluated under both plans', done: index + 1, of: patientIds.length })
      await othersTurn()
    }
  }
  const evaluated = [...counts.values()].reduce((sum, { patients }) => sum + patients, 0)
  return { evaluated, dueChanged, counts: [...counts.values()], moved: all }
}
