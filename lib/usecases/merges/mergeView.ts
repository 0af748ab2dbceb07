import type { StoredMerge } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { samePerson } from '../plan/decideProposal.ts'
import type { MergeView } from './views.ts'

function stateOf({ decision, endedAt }: StoredMerge): MergeView['state'] {
  if (decision === null) return 'waiting'
  if (decision === 'declined') return 'declined'
  return endedAt === null ? 'in force' : 'ended'
}

/** A merge as the one who asks reads it. */
export function mergeView(merge: StoredMerge, { store: { reader }, actor }: Pick<Call, 'store' | 'actor'>): MergeView {
  const { id, identitySha256: _identity, decision: _decision, ...told } = merge
  const [fromAddress, intoAddress] = [reader.patientAddress(merge.fromId), reader.patientAddress(merge.intoId)]
  return { ...told, mergeId: id, fromAddress, intoAddress, state: stateOf(merge), own: samePerson(merge.proposedBy, actor.name) }
}
