import { whySentence } from '../../review/index.ts'
import { assess } from '../../standing/index.ts'
import type { Call, Outcome } from '../call.ts'
import { clinicianKey, clinicianUnder } from '../list/clinicianKey.ts'
import { listRow } from '../list/showList.ts'
import { planInForce } from '../plan/planInForce.ts'
import { cohortByPseudonym } from '../pseudonyms/cohortByPseudonym.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import type { ListRow } from '../views.ts'
import type { CohortPage, CohortQuery, CohortRow } from './views.ts'
import { withoutAnnotations } from './withoutAnnotations.ts'
import { type Telling, withoutTexts } from './withoutTexts.ts'

/** Rules whose kept sentence tells more than may be told here: a filtration, from which the age follows, or reports as received. */
export const TOLD_AFRESH: readonly string[] = ['mde-renal', 'reviewed-then-corrected']

function whyAfresh({ store, today }: Call, patientId: string, telling: Telling): string | null {
  const stored = store.reader.loadHistory(patientId)
  return stored === null ? null : whySentence(withoutTexts(assess(stored.history, planInForce(store.reader, today), today), telling))
}

/** A place of the list as quality sees it: field by field, and what would tell more than may be told said afresh. */
export function cohortRow(call: Call, row: ListRow, pseudonym: string, telling: Telling = { staff: true }): CohortRow {
  const { position, phase, care, clinician, window, rule, state, certainty, more, answered, cautions, strip } = row
  const { since, daysWaiting, nextDueOn, overdue, handedOver, noted } = row
  const why = rule !== null && TOLD_AFRESH.includes(rule) ? (whyAfresh(call, row.patientId, telling) ?? '') : row.why
  return withoutAnnotations({
    ...{ position, pseudonym, phase, care, clinician, window, rule, state, certainty, why, more, answered, cautions, strip },
    ...{ since, daysWaiting, nextDueOn, overdue, handedOver, noted },
  })
}

/** One page of the review list under pseudonyms, read from the standings. Logs which patients were shown. */
export async function showCohort(call: Call, query: CohortQuery): Promise<Outcome<CohortPage>> {
  const refused = await refusedUnlessMay(call, 'list.read-pseudonymous', 'review list under pseudonyms')
  if (refused !== null) return refused
  await renewStandings(call)
  const { reader } = call.store
  const cohort = cohortByPseudonym(call)
  if (!cohort.ok) return cohort
  const { version: planVersion } = planInForce(reader, call.today)
  const { byWindow, followed, phases, clinicians: names, rules } = reader.listFacets()
  const clinicians = names.map((name) => ({ key: clinicianKey(name), name }))
  const clinician = clinicianUnder(names, query.clinician)
  const { rows, matching } = reader.standingsPage({ ...query, clinician, comesBackTo: null })
  const patients = rows.map((row) => row.patientId)
  await call.store.record(call, () => ({ value: null, events: [{ action: 'pseudonymous-list-shown', patients }] }))
  const first = (query.page - 1) * query.pageSize
  const shown = rows.map((row, index) => cohortRow(call, listRow(row, first + index + 1, call), cohort.value.of(row.patientId)))
  return { ok: true, value: { asOf: call.today, rows: shown, matching, followed, byWindow, phases, clinicians, rules, planVersion } }
}
