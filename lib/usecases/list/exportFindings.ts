import type { StandingOnList } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Columns, cautionedTable, type ExportedFile } from '../export/exportedFile.ts'
import { personName } from '../personName.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { exportedPlaces, type ListWish } from './exportedPlaces.ts'
import { FINDING_COLUMNS, type FindingInFile, findingsInFile } from './findingColumns.ts'
import { words } from './listColumns.ts'
import type { StandingAnswer } from './standingAnswer.ts'

interface Row extends FindingInFile {
  readonly position: number
  readonly place: StandingOnList
  readonly phase: string
}

const COLUMNS: Columns<Row> = [
  ['place', ({ position }) => position],
  ['patient', ({ place }) => place.patientId],
  ['name', ({ place }) => personName(place)],
  ['clinician', ({ place }) => place.clinician],
  ['phase', ({ phase }) => words(phase)],
  ...FINDING_COLUMNS,
]

/**
 * Every current finding of everybody on the list as a CSV file, one row a finding with the values it rests on; answered ones too, marked. A patient
 * without a finding has no row. Logs who is in it.
 */
export async function exportFindings(call: Call, wish: ListWish): Promise<Outcome<ExportedFile>> {
  const refused = await refusedUnlessMay(call, 'list.export', 'findings of the review list')
  if (refused !== null) return refused
  const found = await exportedPlaces(call, wish)
  if (!found.ok) return found
  const { asOf, places } = found.value
  const rows = places.flatMap((place, at): Row[] => {
    const answer = JSON.parse(place.answer) as StandingAnswer
    return findingsInFile(answer).map((one) => ({ ...one, position: at + 1, place, phase: answer.phase }))
  })
  const patients = [...new Set(rows.map(({ place }) => place.patientId))]
  await call.store.record(call, () => ({ value: null, events: [{ action: 'list-exported', patients, as: 'findings' }] }))
  const about =
    `Findings of the review list as of ${asOf}, plan version ${planInForce(call.store.reader, asOf).version}; findings in this file: ${rows.length}, ` +
    `of ${patients.length} patients; patients of the list without a finding: ${places.length - patients.length}.`
  return { ok: true, value: cautionedTable(`findings-${asOf}.csv`, about, COLUMNS, rows) }
}
