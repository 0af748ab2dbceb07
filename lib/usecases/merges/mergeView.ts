import type { StoredMerge } from '../../store/index.ts'
import { samePerson } from '../plan/decideProposal.ts'
import type { MergeView } from './views.ts'

function stateOf({ decision, endedAt }: StoredMerge): MergeView['state'] {
  if (decision === null) return 'waiting'
  if (decision === 'declined') return 'declined'
  return endedAt === null ? 'in force' : 'ended'
}

/** A merge as a person reads it. */
export function mergeView(merge: StoredMerge, reader: string): MergeView {
  const { id, identitySha256: _identity, decision: _decision, ...told } = merge
  return { ...told, mergeId: id, state: stateOf(merge), own: samePerson(merge.proposedBy, reader) }
}
