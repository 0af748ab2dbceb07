import { urgencyKey } from '../../review/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { StandingOnList } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type CsvCell, csvText } from '../export/csvText.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import type { ListQuery, ListRow } from '../views.ts'
import { assessedInOrder } from './assessedInOrder.ts'
import { clinicianUnder } from './clinicianKey.ts'
import { patientUnder } from './patientUnder.ts'
import { listRow } from './showList.ts'
import { standingAnswer } from './standingAnswer.ts'

/** A file to be saved; its name tells nothing of anybody. */
export interface ExportedFile {
  readonly fileName: string
  readonly text: string
}

/** What to export: today's list as an address asks for it, all its pages; or everybody as of a day (null: today). */
export type ListWish = { readonly query: Omit<ListQuery, 'page' | 'pageSize'> } | { readonly asOf: Day | null }

const CAUTION = 'Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.'
const EVERYBODY = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false } as const

const words = (name: string): string => name.replaceAll('-', ' ')

const COLUMNS: readonly (readonly [string, (row: ListRow) => CsvCell])[] = [
  ['place', ({ position }) => position],
  ['patient', ({ patientId }) => patientId],
  ['name', ({ name }) => name],
  ['clinician', ({ clinician }) => clinician],
  ['phase', ({ phase }) => words(phase)],
  ['care', ({ care }) => (care === null ? null : words(care))],
  ['window', ({ window }) => words(window)],
  ['why', ({ why }) => why],
  ['state', ({ state }) => state],
  ['certainty', ({ certainty }) => certainty],
  ['cautions', ({ cautions }) => cautions.map(words).join('; ')],
  ['more findings', ({ more }) => more],
  ['answered findings', ({ answered }) => answered],
  ['handed to physician', ({ handedOver }) => (handedOver === null ? null : `by ${handedOver.by} on ${handedOver.on}`)],
  ['since', ({ since }) => since],
  ['days waiting', ({ daysWaiting }) => daysWaiting],
  ['overdue', ({ overdue }) => overdue.map(({ group, dueOn, daysLate }) => `${words(group)} due ${dueOn} (days late: ${daysLate})`).join('; ')],
  ['next due', ({ nextDueOn }) => nextDueOn],
]

function placed({ reader }: Call['store'], assessment: Assessment): StandingOnList {
  const { id, familyName, givenName, clinician } = assessment.course.patient
  const answer = JSON.stringify(standingAnswer(assessment))
  const address = reader.patientAddress(id)
  return { patientId: id, address, familyName, givenName, clinician, window: assessment.window, since: urgencyKey(assessment).since, answer }
}

async function todaysPlaces(call: Call, query: Omit<ListQuery, 'page' | 'pageSize'>, patientId: string | null): Promise<readonly StandingOnList[]> {
  await renewStandings(call)
  return call.store.reader.atOnce(() => {
    const { followed, clinicians } = call.store.reader.listFacets()
    const clinician = clinicianUnder(clinicians, query.clinician)
    const comesBackTo = query.mine === true ? call.actor.name : null
    return call.store.reader.standingsPage({
      ...query,
      clinician,
      comesBackTo,
      handedOver: query.handed === true,
      patientId,
      page: 1,
      pageSize: Math.max(followed, 1),
    }).rows
  })
}

/** The review list as a CSV file for people who work in a spreadsheet: what it is at the top, then a row for everybody. Logs who is in it. */
export async function exportList(call: Call, wish: ListWish): Promise<Outcome<ExportedFile>> {
  const refused = await refusedUnlessMay(call, 'list.export', 'review list')
  if (refused !== null) return refused
  const asOf = 'asOf' in wish ? (wish.asOf ?? call.today) : call.today
  const isToday = asOf === call.today
  const under = patientUnder(call, 'query' in wish ? wish.query.pseudonym : null)
  if (!under.ok) return under
  const places = isToday
    ? await todaysPlaces(call, 'query' in wish ? wish.query : EVERYBODY, under.value)
    : assessedInOrder(call, asOf).map((assessment) => placed(call.store, assessment))
  const rows = places.map((place, index) => listRow(place, index + 1, { today: asOf, actor: call.actor }))
  await call.store.record(call, () => ({ value: null, events: [{ action: 'list-exported', patients: rows.map((row) => row.patientId) }] }))
  const about = `Review list as of ${asOf}, plan version ${planInForce(call.store.reader, asOf).version}; patients in this file: ${rows.length}.`
  const table = [COLUMNS.map(([name]) => name), ...rows.map((row) => COLUMNS.map(([, cellOf]) => cellOf(row)))]
  return { ok: true, value: { fileName: `review-list-${asOf}.csv`, text: csvText([[CAUTION], [about], [], ...table]) } }
}
