import type { Reader, SinceRound, StandingOnList } from '../../store/index.ts'
import { daysBetween } from '../../time/index.ts'
import type { Call } from '../call.ts'
import type { RowOfRound } from './views.ts'

function rowOfRound({ actor, today }: Pick<Call, 'actor' | 'today'>, kept: StandingOnList, since: SinceRound | null): RowOfRound {
  const { seenOn = null, assignedTo = null, assignedDisabled = 0, assignmentId = null } = kept
  return {
    since,
    seenOn,
    daysOnList: seenOn === null ? null : Math.max(0, daysBetween(seenOn, today)),
    assigned: { assignmentId, to: assignedTo, disabled: assignedTo !== null && assignedDisabled === 1, isYou: assignedTo === actor.name },
  }
}

/** Each of these places of the list with what the weekly round knows of it; `sinceId` names the round they are compared with. */
export function rowsOfRound(
  reader: Pick<Reader, 'sinceRound'>,
  call: Pick<Call, 'actor' | 'today'>,
  rows: readonly StandingOnList[],
  sinceId: number | null,
): readonly { readonly kept: StandingOnList; readonly round: RowOfRound }[] {
  const patientIds = rows.map(({ patientId }) => patientId)
  const since = sinceId === null ? null : reader.sinceRound(sinceId, patientIds)
  return rows.map((kept) => ({ kept, round: rowOfRound(call, kept, since?.get(kept.patientId) ?? null) }))
}
