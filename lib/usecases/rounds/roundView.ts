import type { StoredRound } from '../../store/index.ts'
import { momentSays } from './momentSays.ts'
import type { RoundView } from './views.ts'

/** A stored round with its moments in words. */
export function roundView({ id, startedBy, startedAt, endedBy, endedAt, followed, open }: StoredRound): RoundView {
  const ended = endedAt === null ? null : momentSays(endedAt)
  return { roundId: id, startedBy, started: momentSays(startedAt), endedBy, ended, followed, open }
}
