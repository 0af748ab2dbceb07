import type { StandingOnList } from '../../store/index.ts'
import { daysBetween } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { personName } from '../personName.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { comparedWith } from '../rounds/comparedWith.ts'
import { roundOfList } from '../rounds/roundOfList.ts'
import { rowsOfRound } from '../rounds/rowsOfRound.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import type { ListPage, ListQuery, ListRow } from '../views.ts'
import { clinicianKey, clinicianUnder } from './clinicianKey.ts'
import { nextDueOn, overdueOn } from './dueOn.ts'
import { patientUnder } from './patientUnder.ts'
import { roundFilter } from './roundFilter.ts'
import type { StandingAnswer } from './standingAnswer.ts'

/** A place of the list as it is shown on a day to whoever asks. */
export function listRow(kept: StandingOnList, position: number, { today, actor }: Pick<Call, 'today' | 'actor'>): ListRow {
  const answer = JSON.parse(kept.answer) as StandingAnswer
  const open = answer.findings.slice(0, answer.findings.length - answer.answered)
  const top = open[0] ?? null
  return {
    position,
    patientId: kept.patientId,
    address: kept.address,
    name: personName(kept),
    phase: answer.phase,
    care: answer.care,
    clinician: kept.clinician,
    window: kept.window,
    rule: top?.rule ?? null,
    state: top?.state ?? null,
    certainty: top?.certainty ?? null,
    why: answer.why,
    more: Math.max(0, open.length - 1),
    answered: answer.answered,
    cautions: top?.cautions ?? [],
    strip: answer.strip,
    since: kept.since,
    daysWaiting: kept.since === null ? null : Math.max(0, daysBetween(kept.since, today)),
    nextDueOn: nextDueOn(answer.due, today),
    overdue: overdueOn(answer.due, today),
    comesBackToYou: answer.comesBackTo.includes(actor.name),
    handedOver: answer.handedOver[0] ?? null,
    noted: answer.noted,
  }
}

/** One page of the review list, read from the standings: no patient is evaluated for it. Logs which patients were shown. */
export async function showList(call: Call, query: ListQuery): Promise<Outcome<ListPage>> {
  const refused = await refusedUnlessMay(call, 'list.read', 'review list')
  if (refused !== null) return refused
  await renewStandings(call)
  const { reader } = call.store
  const { version: planVersion } = planInForce(reader, call.today)
  const { byWindow, followed, phases, clinicians: names, rules } = reader.listFacets()
  const clinicians = names.map((name) => ({ key: clinicianKey(name), name }))
  const clinician = clinicianUnder(names, query.clinician)
  const under = patientUnder(call, query.pseudonym)
  if (!under.ok) return under
  const sinceId = comparedWith(reader, query.since ?? null)
  const asked = { ...query, clinician, patientId: under.value, ...roundFilter(call, query, sinceId) }
  const { rows, matching } = reader.standingsPage(asked)
  const first = (query.page - 1) * query.pageSize
  await call.store.record(call, () => ({ value: null, events: [{ action: 'list-shown', patients: rows.map((row) => row.patientId) }] }))
  const shown = rowsOfRound(reader, call, rows, sinceId).map(({ kept, round }, index) => ({ ...listRow(kept, first + index + 1, call), round }))
  const round = roundOfList(call, sinceId, followed)
  return {
    ok: true,
    value: { asOf: call.today, rows: shown, matching, followed, byWindow, phases, clinicians, rules, planVersion, round },
  }
}
