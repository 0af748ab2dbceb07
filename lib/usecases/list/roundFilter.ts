import type { StandingQuery } from '../../store/index.ts'
import type { Call } from '../call.ts'
import type { ListQuery } from '../views.ts'

/** The number of no account. */
const NO_ACCOUNT = 0

type RoundFilter = Pick<StandingQuery, 'comesBackTo' | 'handedOver' | 'sinceRound' | 'assigned'>

/** What the list is narrowed to for whoever asks; `sinceId` names the round it is compared with. An account of nobody filters everybody out. */
export function roundFilter(
  { store, actor }: Call,
  { mine, handed, has = null }: Pick<ListQuery, 'mine' | 'handed' | 'has'>,
  sinceId: number | null,
): RoundFilter {
  const assigned = has === 'me' ? (store.reader.account(actor.name)?.id ?? NO_ACCOUNT) : has
  return { comesBackTo: mine === true ? actor.name : null, handedOver: handed === true, sinceRound: sinceId, assigned }
}
