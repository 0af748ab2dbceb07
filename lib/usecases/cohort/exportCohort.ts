import type { Call, Outcome } from '../call.ts'
import { type Columns, cautionedTable, type ExportedFile } from '../export/exportedFile.ts'
import { STANDS_COLUMNS, WAITS_COLUMNS } from '../list/listColumns.ts'
import { listRow } from '../list/showList.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { cohortPlaces } from './cohortPlaces.ts'
import { cohortRow } from './showCohort.ts'
import type { CohortQuery, CohortRow } from './views.ts'

// Nobody of the clinic by name: a file travels further than a page, and with the days it would help whoever wants to know who somebody is.
const COLUMNS: Columns<CohortRow> = [
  ['place', ({ position }) => position],
  ['pseudonym', ({ pseudonym }) => pseudonym],
  ...STANDS_COLUMNS,
  ['handed to physician', ({ handedOver }) => (handedOver === null ? null : `on ${handedOver.on}`)],
  ...WAITS_COLUMNS,
]

/** The review list under pseudonyms as a CSV file, without names, numbers, birth dates and clinicians. Logs whose it was. */
export async function exportCohort(call: Call, query: Omit<CohortQuery, 'page' | 'pageSize'>): Promise<Outcome<ExportedFile>> {
  const refused = await refusedUnlessMay(call, 'list.export-pseudonymous', 'review list under pseudonyms')
  if (refused !== null) return refused
  const found = await cohortPlaces(call, query)
  if (!found.ok) return found
  const { places, cohort } = found.value
  const rows = places.map((place, at) => cohortRow(call, listRow(place, at + 1, call), cohort.of(place.patientId), { staff: false }))
  const patients = places.map(({ patientId }) => patientId)
  await call.store.record(call, () => ({ value: null, events: [{ action: 'pseudonymous-list-exported', patients }] }))
  const { version } = planInForce(call.store.reader, call.today)
  const about = `Review list under pseudonyms as of ${call.today}, plan version ${version}; patients in this file: ${rows.length}.`
  return { ok: true, value: cautionedTable(`cohort-list-${call.today}.csv`, about, COLUMNS, rows) }
}
