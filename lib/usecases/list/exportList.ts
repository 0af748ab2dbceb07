import { answerWords } from '../../review/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Columns, cautionedTable, type ExportedFile } from '../export/exportedFile.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { ListRow } from '../views.ts'
import { exportedPlaces, type ListWish } from './exportedPlaces.ts'
import { STANDS_COLUMNS, WAITS_COLUMNS } from './listColumns.ts'
import { listRow } from './showList.ts'

const COLUMNS: Columns<ListRow> = [
  ['place', ({ position }) => position],
  ['patient', ({ patientId }) => patientId],
  ['name', ({ name }) => name],
  ['clinician', ({ clinician }) => clinician],
  ...STANDS_COLUMNS,
  ['handed to physician', ({ handedOver }) => (handedOver === null ? null : `by ${handedOver.by} on ${handedOver.on}`)],
  [
    'noted, and open still',
    ({ noted }) => (noted === null ? null : `${noted.did === null ? '' : `${answerWords(noted.did)} `}by ${noted.by} on ${noted.on}`),
  ],
  ...WAITS_COLUMNS,
]

/** The review list as a CSV file for people who work in a spreadsheet: what it is at the top, then a row for everybody. Logs who is in it. */
export async function exportList(call: Call, wish: ListWish): Promise<Outcome<ExportedFile>> {
  const refused = await refusedUnlessMay(call, 'list.export', 'review list')
  if (refused !== null) return refused
  const found = await exportedPlaces(call, wish)
  if (!found.ok) return found
  const { asOf, places } = found.value
  const rows = places.map((place, index) => listRow(place, index + 1, { today: asOf, actor: call.actor }))
  await call.store.record(call, () => ({ value: null, events: [{ action: 'list-exported', patients: rows.map((row) => row.patientId) }] }))
  const about = `Review list as of ${asOf}, plan version ${planInForce(call.store.reader, asOf).version}; patients in this file: ${rows.length}.`
  return { ok: true, value: cautionedTable(`review-list-${asOf}.csv`, about, COLUMNS, rows) }
}
