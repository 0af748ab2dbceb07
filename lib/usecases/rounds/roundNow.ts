import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { comparedWith } from './comparedWith.ts'
import { handedIn } from './handedIn.ts'
import { answeredKeys, progressOf } from './progress.ts'
import type { RoundNow } from './views.ts'

/** The counts of the round that runs, and of what is another than when the round `sinceId` ended. Whoever shows more beside them reads at one moment. */
export function roundNow({ store: { reader }, now }: Call, sinceId: number | null): RoundNow {
  const running = reader.runningRound()
  const made = running === null ? null : reader.answersBetween(running.startedAt, now)
  return {
    runningId: running?.id ?? null,
    progress: made === null ? null : progressOf(reader, answeredKeys(made), null, reader.countOpen()),
    handedOver: made === null ? 0 : handedIn(made).length,
    news: sinceId === null ? null : reader.newsCounts(sinceId),
  }
}

/** The same for a list that stands on a screen while it is worked through, compared with the round it names or the last that ended. Tells of nobody. */
export async function readRoundNow(call: Call, since: number | null): Promise<Outcome<RoundNow>> {
  const refused = await refusedUnlessMay(call, 'round.read', 'weekly round')
  if (refused !== null) return refused
  const { reader } = call.store
  return { ok: true, value: reader.atOnce(() => roundNow(call, comparedWith(reader, since))) }
}
