import { assess } from '../../standing/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Columns, cautionedTable, type ExportedFile } from '../export/exportedFile.ts'
import { findingJson } from '../json/findingJson.ts'
import { FINDING_COLUMNS, type FindingInFile, findingsInFile } from '../list/findingColumns.ts'
import { words } from '../list/listColumns.ts'
import type { StandingAnswer } from '../list/standingAnswer.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { cohortPlaces } from './cohortPlaces.ts'
import { TOLD_AFRESH } from './showCohort.ts'
import type { CohortQuery } from './views.ts'
import { withoutAnnotations } from './withoutAnnotations.ts'
import { withoutTexts } from './withoutTexts.ts'

interface Row extends FindingInFile {
  readonly position: number
  readonly pseudonym: string
  readonly phase: string
}

const COLUMNS: Columns<Row> = [
  ['place', ({ position }) => position],
  ['pseudonym', ({ pseudonym }) => pseudonym],
  ['phase', ({ phase }) => words(phase)],
  ...FINDING_COLUMNS,
]

/** Whether what is kept of a finding tells more than may be told here: an age, reports as received, or the text of an immunofixation. */
function tellsMore({ finding: { rule, evidence } }: FindingInFile): boolean {
  return TOLD_AFRESH.includes(rule) || evidence.some(({ analyte }) => analyte.endsWith('immunofixation'))
}

function findingsOf({ store, today }: Call, patientId: string, answer: StandingAnswer): readonly FindingInFile[] {
  const kept = findingsInFile(answer)
  if (!kept.some(tellsMore)) return kept
  const stored = store.reader.loadHistory(patientId)
  if (stored === null) return []
  const { findings, answers } = withoutTexts(assess(stored.history, planInForce(store.reader, today), today), { staff: false })
  return findings.map((finding) => ({ finding: findingJson(finding), answered: answers.has(finding) }))
}

/** Every current finding of the cohort under pseudonyms as a CSV file, as quality reads it on a patient's page. Logs whose it was. */
export async function exportCohortFindings(call: Call, query: Omit<CohortQuery, 'page' | 'pageSize'>): Promise<Outcome<ExportedFile>> {
  const refused = await refusedUnlessMay(call, 'list.export-pseudonymous', 'findings under pseudonyms')
  if (refused !== null) return refused
  const found = await cohortPlaces(call, query)
  if (!found.ok) return found
  const { places, cohort } = found.value
  const told = places.map(({ patientId, answer: kept }, at) => {
    const answer = JSON.parse(kept) as StandingAnswer
    const told = { position: at + 1, pseudonym: cohort.of(patientId), phase: answer.phase }
    return { patientId, rows: findingsOf(call, patientId, answer).map((one): Row => withoutAnnotations({ ...one, ...told })) }
  })
  const patients = told.filter(({ rows }) => rows.length > 0).map(({ patientId }) => patientId)
  const rows = told.flatMap((one) => one.rows)
  await call.store.record(call, () => ({ value: null, events: [{ action: 'pseudonymous-list-exported', patients, as: 'findings' }] }))
  const about =
    `Findings under pseudonyms as of ${call.today}, plan version ${planInForce(call.store.reader, call.today).version}; findings in this file: ` +
    `${rows.length}, of ${patients.length} patients; patients of the list without a finding: ${places.length - patients.length}.`
  return { ok: true, value: cautionedTable(`cohort-findings-${call.today}.csv`, about, COLUMNS, rows) }
}
