import type { Role } from '../../lib/access/index.ts'
import type { Store } from '../../lib/store/index.ts'
import { addDays, type Day } from '../../lib/time/index.ts'
import {
  acceptFiles,
  type Call,
  changeCourse,
  confirmMerge,
  consoleCall,
  excludeResult,
  openEmergency,
  openPatient,
  previewSheet,
  proposeMerge,
  proposePatient,
  proposePlan,
  recordAttribution,
  recordReview,
  releaseSheet,
  resolveHeld,
  withdrawSheet,
} from '../../lib/usecases/index.ts'
import { granted } from '../usecases/accounts/persons.ts'
import { csv, type Row } from '../usecases/clinic.ts'

/** Patients by number: one with a rise that was corrected, one with organ damage, and another record of the first. */
export const FIRST = 'ZQCANARY-1'
export const DAMAGED = 'ZQCANARY-2'
export const JOINED = 'ZQCANARY-3'
export const CLOSED = 'ZQCANARY-4'
export const BORN = '1931-07-19'

/** Filed values, as received. */
export const VALUES = { risen: '17.3713', corrected: '10.4142', creatinine: '203.717', excluded: '77.7171', lesions: '8461' } as const
/** Values of rows that were held or refused. */
export const WAITING = { held: '18.8181', refused: '19.1919' } as const

/** A call of somebody in this role. */
export function inRole(store: Store, role: Role): Call {
  const call = consoleCall(store, `canary-${role}`)
  return { ...call, actor: { ...call.actor, role } }
}

const SERUM = '33358-3'

interface Days {
  readonly ago: (days: number) => Day
}

function patients(): Row[] {
  const person = { birth_date: BORN, sex: 'female', family_name: 'ZqcanaryFamily', given_name: 'ZqcanaryGiven', clinician: 'Staff Physician' }
  return [FIRST, DAMAGED, JOINED].map((patient_id) => ({ patient_id, ...person }))
}

function courses({ ago }: Days): Row[] {
  return [
    { patient_id: FIRST, on: ago(400), event: 'diagnosis', phase: 'active', heavy_chain: 'G', light_chain: 'kappa' },
    { patient_id: FIRST, on: ago(390), event: 'line-start', line: '1', regimen: 'bortezomib' },
    { patient_id: DAMAGED, on: ago(400), event: 'diagnosis', phase: 'smouldering', heavy_chain: 'G', light_chain: 'kappa' },
    { patient_id: DAMAGED, on: ago(20), event: 'imaging', modality: 'ct', lytic_lesions: VALUES.lesions },
  ]
}

function results({ ago }: Days): Row[] {
  const row = (patient_id: string, days: number, code: string, value: string, unit: string, more: Row = {}): Row => {
    const accession = `ZQCANARY-ACC-${days}-${code}`
    return { patient_id, collected_at: ago(days), code, value, unit, laboratory: 'North laboratory', accession, ...more }
  }
  return [
    row(FIRST, 400, SERUM, '40', 'g/L'),
    row(FIRST, 200, SERUM, '10', 'g/L'),
    row(FIRST, 100, SERUM, '10', 'g/L'),
    row(FIRST, 4, SERUM, VALUES.risen, 'g/L{Zqcanaryunit}'),
    row(FIRST, 3, '718-7', 'QNS, ask Zqcanarynovalue', 'g/L'),
    row(FIRST, 100, '25700-6', 'IgG kappa, faint', ''),
    row(FIRST, 4, '25700-6', 'IgG kappa band, comment Zqcanaryfixation', ''),
    row(DAMAGED, 30, '14682-9', VALUES.creatinine, 'umol/L'),
    row(DAMAGED, 10, '14682-9', VALUES.creatinine, 'umol/L'),
    row(DAMAGED, 10, '718-7', VALUES.excluded, 'g/L'),
    row(JOINED, 50, '718-7', '131', 'g/L'),
    row(FIRST, 4, '99999-9', WAITING.held, 'g/L'),
    row('ZQCANARY-9', 4, SERUM, WAITING.held, 'g/L'),
    row('ZQCANARY-8', 4, SERUM, WAITING.held, 'g/L'),
    row(FIRST, 4, SERUM, WAITING.refused, 'g/L', { collected_at: '2026-02-30' }),
    // Before birth: the sentence of this row tells the birth date.
    row(FIRST, 4, SERUM, WAITING.held, 'g/L', { collected_at: '1930-01-01' }),
  ]
}

async function found(store: Store, patientId: string, rule: string): Promise<{ patientId: string; rule: string; key: string }> {
  const { findings } = granted(await openPatient(inRole(store, 'physician'), patientId))
  const finding = findings.find((one) => one.rule === rule)
  if (finding === undefined) throw new Error(`${rule} was expected of ${patientId} among ${findings.map((one) => one.rule).join(', ')}`)
  return { patientId, rule, key: finding.key }
}

function heldRow(store: Store, patientId: string): number {
  const row = store.reader.heldQueue().find((held) => held.patientId === patientId || held.fields.patient_id === patientId)
  if (row === undefined) throw new Error(`no row of ${patientId} waits`)
  return row.id
}

async function take(store: Store, name: string, rows: readonly Row[]): Promise<void> {
  granted(await acceptFiles(consoleCall(store, 'canary-console'), [csv(`Zqcanaryfile-${name}.csv`, rows)], { source: 'North', dryRun: false }))
}

async function decide(store: Store): Promise<void> {
  const [nurse, physician] = [inRole(store, 'navigator'), inRole(store, 'physician')]
  granted(await recordReview(nurse, { ...(await found(store, FIRST, 'pd-serum')), note: 'Zqcanarynote of a rise', bringBackOn: null }))
  granted(await recordReview(nurse, { ...(await found(store, DAMAGED, 'mde-bone')), note: 'Zqcanarynote of a bone', bringBackOn: null }))
  granted(await recordAttribution(physician, { ...(await found(store, DAMAGED, 'mde-anaemia')), cause: 'Zqcanarycause' }))
  const spurious = store.reader.versionsOfPatient(DAMAGED).find(({ result }) => result.provenance.valueText === VALUES.excluded)
  granted(await excludeResult(physician, { patientId: DAMAGED, resultId: spurious?.result.id ?? 0, reason: 'Zqcanaryreason' }))
  const line = { kind: 'line-started', began: physician.today, regimen: 'zqcanarydrug + daratumumab', intent: null } as const
  granted(await changeCourse(physician, { patientId: DAMAGED, change: line, reason: 'Zqcanarycourse' }))
  const merge = granted(await proposeMerge(nurse, { fromId: JOINED, intoId: FIRST, reason: 'Zqcanaryjoin' }))
  granted(await confirmMerge(physician, { mergeId: merge.mergeId }))
  const whose = { alike: false, remember: false, reason: 'Zqcanarychoice' }
  granted(await proposePatient(nurse, { heldId: heldRow(store, 'ZQCANARY-9'), patientId: FIRST, ...whose }))
  granted(await resolveHeld(nurse, heldRow(store, 'ZQCANARY-8'), 'refuse', 'Zqcanarydecided'))
}

/** Two sheets a physician released, one of them withdrawn. */
async function sheets(store: Store): Promise<readonly number[]> {
  const physician = inRole(store, 'physician')
  const ids: number[] = []
  for (const own of ['Zqcanarysheet one', 'Zqcanarysheet two']) {
    const wish = { patientId: FIRST, chosen: ['serum-m-protein', 'haemoglobin'], own, visitOn: null } as const
    const { digest, afterSheet } = granted(await previewSheet(physician, wish))
    ids.push(granted(await releaseSheet(physician, { ...wish, digest, afterSheet })).sheetId)
  }
  granted(await withdrawSheet(physician, { patientId: FIRST, sheetId: ids[0] ?? 0, reason: 'Zqcanarywithdrawal' }))
  return ids
}

/** Somebody who left, and whose record a physician opened all the same. What was typed for it is for quality, and names nobody. */
async function emergency(store: Store, { ago }: Days): Promise<number> {
  const left = { patient_id: CLOSED, birth_date: BORN, sex: 'female', family_name: 'ZqcanaryFamily', status: 'discharged', status_on: ago(9) }
  await take(store, 'closed', [left])
  const physician = inRole(store, 'physician')
  const call = { ...physician, actor: { ...physician.actor, sessionHash: 'c'.repeat(64) } }
  const { emergencyId } = granted(await openEmergency(call, { patientId: CLOSED, reason: 'Urgent canary 7431, called tonight' }))
  granted(await openPatient(call, CLOSED))
  return emergencyId
}

/** What was planted where, by number. */
export interface Planted {
  readonly heldIds: readonly number[]
  readonly fileIds: readonly number[]
  readonly proposal: number
  readonly emergencyId: number
  readonly sheetIds: readonly number[]
}

/** A small cohort with something that must not be seen wherever something can be typed or received. */
export async function plant(store: Store): Promise<Planted> {
  const { today } = consoleCall(store, 'canary-console')
  const days: Days = { ago: (count) => addDays(today, -count) }
  await take(store, 'patients', patients())
  await take(store, 'course', courses(days))
  await take(store, 'results', results(days))
  // Of another birth date than the one known: held, with both in its sentence.
  await take(store, 'patients-again', [{ patient_id: FIRST, birth_date: '1941-02-03', sex: 'female', family_name: 'ZqcanaryFamily' }])
  const [first] = results(days).filter(({ value }) => value === VALUES.risen)
  // Another value of the same sample without a word that it is a correction: held, with a sentence about the stored one.
  await take(store, 'conflict', [{ ...first, value: WAITING.held, unit: 'g/L' }])
  await decide(store)
  await take(store, 'corrected', [{ ...first, value: VALUES.corrected, status: 'corrected' }])
  const sheetIds = await sheets(store)
  const change = { changes: { 'treatment.0.every': { days: 21 } }, from: addDays(today, 7), basedOn: 1, note: 'three-week cycles' }
  const proposed = granted(await proposePlan(inRole(store, 'physician'), change))
  const files = store.reader.recentFiles(50).filter(({ name }) => name.startsWith('Zqcanaryfile'))
  const held = files.flatMap(({ id }) => store.reader.heldRowsOfFile(id))
  const emergencyId = await emergency(store, days)
  return { heldIds: held.map(({ id }) => id), fileIds: files.map(({ id }) => id), proposal: proposed.version, emergencyId, sheetIds }
}
