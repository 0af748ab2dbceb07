import { changesInForce, matterOf } from '../../results/index.ts'
import type { Call, Outcome } from '../call.ts'
import { keepProposal } from '../proposals/keepProposal.ts'
import { type Judge, refuse } from '../proposals/proposal.ts'
import { proposedChange } from './proposedChange.ts'

export interface TakeBackWish {
  readonly patientId: string
  readonly changeId: number
  readonly reason: string
  /** The stamp of the consequence that was shown; absent where none was. */
  readonly shown?: string | undefined
}

/** Only the last word on a thing is taken back: an earlier one has others built on it. */
export function judgeTakingBack({ patientId, changeId }: Pick<TakeBackWish, 'patientId' | 'changeId'>): Judge<null> {
  return ({ known }, reader) => {
    const { courseChanges } = known
    const stored = courseChanges.find(({ id }) => id === changeId)
    if (stored === undefined || stored.kind === 'taken-back')
      return refuse('not-found', `Patient ${patientId} has no change of the course with the number ${changeId}.`)
    const inForce = changesInForce(courseChanges)
    if (!inForce.some(({ id }) => id === changeId)) refuse('invalid', `Change ${changeId} was taken back already.`)
    const last = inForce.findLast((change) => matterOf(change) === matterOf(stored))
    if (last !== undefined && last.id !== changeId) refuse('invalid', `Change ${last.id} of ${last.on} builds on this one: take that back first.`)
    return proposedChange({
      record: reader.recordOfChange(changeId) ?? patientId,
      change: { kind: 'taken-back', changeId },
      told: [],
      before: stored,
      event: (changed) => ({ action: 'course-change-taken-back', ...changed }),
      notes: [],
    })
  }
}

/** Takes a change of the course back, with the reason: what was said before it counts again. Both stay on record. */
export function takeBackChange(call: Call, wish: TakeBackWish): Promise<Outcome<null>> {
  const { patientId, reason, shown } = wish
  return keepProposal(call, { permission: 'course.write', patientId, typed: reason, called: 'The reason', shown }, judgeTakingBack(wish))
}
