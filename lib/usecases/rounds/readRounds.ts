import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { roundView } from './roundView.ts'
import type { RoundView } from './views.ts'

/** About two years of weeks. */
const MOST = 104

/** A round in the list of rounds, with how many patients were answered in it. */
export interface RoundInList extends RoundView {
  readonly answeredPatients: number
}

/** The rounds of the clinic, the running one and the latest that ended, latest first. */
export async function readRounds(call: Call): Promise<Outcome<readonly RoundInList[]>> {
  const refused = await refusedUnlessMay(call, 'round.read', 'rounds')
  if (refused !== null) return refused
  const { reader } = call.store
  const rounds = reader.atOnce(() => {
    const running = reader.runningRound()
    return [...(running === null ? [] : [running]), ...reader.endedRounds(MOST)].map((round) => {
      const made = reader.answersBetween(round.startedAt, round.endedAt ?? call.now)
      return { ...roundView(round), answeredPatients: new Set(made.map(({ patientId }) => patientId)).size }
    })
  })
  await call.store.record(call, () => ({ value: null, events: [{ action: 'rounds-shown', rounds: rounds.length }] }))
  return { ok: true, value: rounds }
}
