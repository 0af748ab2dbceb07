import {
  changeCourse,
  confirmMerge,
  decideHeld,
  endEmergency,
  excludeResult,
  heldRows,
  openEmergency,
  openPatient,
  previewSheet,
  proposeMerge,
  proposePatient,
  proposePlan,
  recordAttribution,
  releaseSheet,
} from '../../lib/usecases/index.ts'
import { granted } from '../usecases/accounts/persons.ts'
import { type Clinic, patientPath, signedInAs } from './clinic.ts'
import { ANAEMIC, admit, closeRecord, RISEN_AGAIN, registerAgain } from './ownPatient.ts'
import { beside } from './ownSession.ts'
import { sendIntake } from './sendIntake.ts'

const PATIENT = 'Z-FORMS'
const ATTRIBUTED = 'Z-FORMS-CAUSE'
const DECIDED = 'Z-FORMS-VALUE'
const CLOSED = 'Z-FORMS-CLOSED'
const REASON = 'prepared for a form'

/** Where each form waits that does not stand on a page by itself. */
export interface Prepared {
  /** The path of a patient's page. */
  readonly pathOf: (patientId: string) => string
  readonly patientId: string
  readonly attributedId: string
  readonly decidedId: string
  readonly codeRow: number
  readonly whoseRow: number
  readonly proposedRow: number
  /** The path of a released sheet. */
  readonly sheetPath: string
}

const HELD = [
  'patient_id,collected_at,code,value,unit,accession',
  `${PATIENT},2026-01-05,MAPPED,101,g/L,F1`,
  `${PATIENT},2026-02-05,HB-LOCAL,102,g/L,F2`,
  `${PATIENT},2026-03-05,HB-LOCAL,103,g/L,F3`,
  'X-77,2026-05-06,2885-2,71,g/L,F4',
  'X-77,2026-05-07,2885-2,72,g/L,F5',
  'X-88,2026-05-07,2885-2,72,g/L,F6',
  '',
].join('\n')

/** Brings every form of the product to where it waits for somebody. */
export async function prepareForms(clinic: Clinic): Promise<Prepared> {
  for (const patientId of [PATIENT, ATTRIBUTED, DECIDED, CLOSED]) await admit(clinic, patientId, ANAEMIC)
  await closeRecord(clinic, CLOSED)
  for (const patientId of ['Z-FORMS-OTHER', 'Z-FORMS-ANOTHER']) await registerAgain(clinic, patientId, RISEN_AGAIN)
  const nurse = await signedInAs(clinic, 'navigator')
  const headers = { origin: clinic.url, 'x-lowmark-dry-run': 'no', 'x-lowmark-source': 'north' }
  const sent = await (await sendIntake(clinic.url, await nurse.context.cookies(), HELD, headers)).text()
  if (!sent.includes('"held":6')) throw new Error(sent)
  await nurse.context.close()

  return beside(clinic, async (as) => {
    const [somebody, doctor] = [as('somebody', 'navigator'), as('a doctor', 'physician')]
    const rows = granted(await heldRows(somebody))
    const rowOf = (accession: string): number => rows.find(({ fields }) => fields.accession === accession)?.heldId ?? 0
    const alone = { alike: false, except: [], remember: true, reason: REASON } as const
    granted(await decideHeld(somebody, { heldId: rowOf('F1'), act: { kind: 'code', code: '718-7' }, ...alone }))
    granted(await proposePatient(somebody, { heldId: rowOf('F6'), patientId: PATIENT, alike: false, remember: false, reason: REASON }))
    const { mergeId } = granted(await proposeMerge(somebody, { fromId: 'Z-FORMS-OTHER', intoId: DECIDED, reason: REASON }))
    granted(await confirmMerge(doctor, { mergeId }))
    granted(await proposeMerge(somebody, { fromId: 'Z-FORMS-ANOTHER', intoId: ATTRIBUTED, reason: REASON }))
    const finding = granted(await openPatient(doctor, ATTRIBUTED)).findings.find(({ attributable }) => attributable)
    granted(await recordAttribution(doctor, { patientId: ATTRIBUTED, rule: finding?.rule ?? '', key: finding?.key ?? '', cause: 'bleeding' }))
    const result = granted(await openPatient(doctor, DECIDED)).results.find(({ analyte }) => analyte === 'haemoglobin')
    granted(await excludeResult(doctor, { patientId: DECIDED, resultId: result?.resultId ?? 0, reason: REASON }))
    const endLine = { kind: 'line-ended', line: 1, ended: doctor.today } as const
    granted(await changeCourse(doctor, { patientId: DECIDED, change: endLine, reason: REASON }))
    const wish = { changes: { 'treatment.0.every': { days: 14 } }, from: doctor.today, basedOn: 1, note: REASON }
    granted(await proposePlan(doctor, wish))
    const onCall = { ...doctor, actor: { ...doctor.actor, sessionHash: 'f'.repeat(64) } }
    const { emergencyId } = granted(await openEmergency(onCall, { patientId: CLOSED, reason: REASON }))
    granted(await endEmergency(onCall, { emergencyId }))
    const sheet = { patientId: PATIENT, chosen: ['haemoglobin'], own: '', visitOn: null } as const
    const { digest, afterSheet } = granted(await previewSheet(doctor, sheet))
    const { sheetId } = granted(await releaseSheet(doctor, { ...sheet, digest, afterSheet }))
    return {
      pathOf: (id) => patientPath(clinic, id),
      patientId: PATIENT,
      attributedId: ATTRIBUTED,
      decidedId: DECIDED,
      codeRow: rowOf('F2'),
      whoseRow: rowOf('F4'),
      proposedRow: rowOf('F6'),
      sheetPath: `${patientPath(clinic, PATIENT)}/sheet/${sheetId}`,
    }
  })
}
