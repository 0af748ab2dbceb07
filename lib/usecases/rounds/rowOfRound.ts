import type { Reader, StandingOnList } from '../../store/index.ts'
import { daysBetween } from '../../time/index.ts'
import type { Call } from '../call.ts'
import type { RowOfRound } from './views.ts'

/** What the weekly round knows of a place of the list; `sinceId` names the round it is compared with. */
export function rowOfRound(
  reader: Pick<Reader, 'sinceRound'>,
  { actor, today }: Pick<Call, 'actor' | 'today'>,
  kept: StandingOnList,
  sinceId: number | null,
): RowOfRound {
  const { patientId, seenOn = null, assignedTo = null, assignedDisabled = 0, assignmentId = null } = kept
  return {
    since: sinceId === null ? null : reader.sinceRound(sinceId, patientId),
    seenOn,
    daysOnList: seenOn === null ? null : Math.max(0, daysBetween(seenOn, today)),
    assigned: { assignmentId, to: assignedTo, disabled: assignedTo !== null && assignedDisabled === 1, isYou: assignedTo === actor.name },
  }
}
