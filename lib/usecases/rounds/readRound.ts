import type { Reader, StoredRound } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { clinicDay } from '../clinicDay.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import { handedIn, handedView } from './handedIn.ts'
import { answeredByKind, answeredKeys, progressOf } from './progress.ts'
import { roundView } from './roundView.ts'
import type { RoundSummary } from './views.ts'

/** More would not fit the one page the summary is printed on. */
const NAMED = 12

function summaryOf(reader: Reader, round: StoredRound, now: string): RoundSummary {
  const to = round.endedAt ?? now
  const endOf = round.endedAt === null ? null : round.id
  const made = reader.answersBetween(round.startedAt, to)
  const answered = answeredKeys(made)
  const open = endOf === null ? reader.countsNow() : reader.countsAtEnd(endOf)
  const having = endOf === null ? reader.havingNow() : reader.havingThen(endOf, to)
  const handed = handedIn(made)
  return {
    round: roundView(round),
    asOf: clinicDay(new Date(to)),
    lookedAt: reader.patientsOpened(round.startedAt, to),
    answered: answeredByKind(made),
    answeredPatients: answered.size,
    handed: handedView(reader, handed.slice(0, NAMED)),
    handedPatients: handed.length,
    progress: progressOf(reader, answered, endOf, open.open),
    open,
    having,
    nobodys: open.followed - having.reduce((sum, { patients }) => sum + patients, 0),
  }
}

/** The summary of a round: of one that ended as it was when it ended, of the one that runs as it stands. */
export async function readRound(call: Call, roundId: number): Promise<Outcome<RoundSummary>> {
  const refused = await refusedUnlessMay(call, 'round.read', `round ${roundId}`)
  if (refused !== null) return refused
  const { reader } = call.store
  const round = reader.round(roundId)
  if (round === null) return { ok: false, kind: 'not-found', reason: `No round has the number ${roundId}.` }
  if (round.endedAt === null) await renewStandings(call)
  const summary = reader.atOnce(() => summaryOf(reader, round, call.now))
  await call.store.record(call, () => ({
    value: null,
    events: [{ action: 'round-shown', roundId, patients: summary.handed.map(({ patientId }) => patientId) }],
  }))
  return { ok: true, value: summary }
}
