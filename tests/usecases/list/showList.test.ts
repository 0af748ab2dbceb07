import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { exportList, type ListQuery, openPatient, showCohort, showList } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, patientRow, take } from '../clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  const rows = [
    patientRow({ patient_id: 'P1', clinician: 'Ulq' }),
    patientRow({ patient_id: 'P2', clinician: 'Vex' }),
    patientRow({ patient_id: 'P3', clinician: 'Ulq' }),
  ]
  await take(store, [csv('patients.csv', rows)])
})
afterEach(() => dispose())

const EVERYBODY = { window: null, phase: null, clinician: null, rule: null, descending: false, page: 1, pageSize: 50 }
const ALL: ListQuery = { ...EVERYBODY, sort: 'urgency' }

const shown = async (query: Partial<ListQuery>) => granted(await showList(callOf(store, 'navigator'), { ...ALL, ...query }))

test('a clinician is asked for by a key that carries no name', async () => {
  const { clinicians } = await shown({})
  expect(clinicians.map(({ name }) => name)).toEqual(['Ulq', 'Vex'])
  const [ulq] = clinicians
  expect(ulq?.key).toMatch(/^[0-9a-f]{10}$/)
  expect((await shown({ clinician: ulq?.key ?? '' })).rows.map(({ patientId }) => patientId)).toEqual(['P1', 'P3'])
})

test('a key that is nobody’s shows nobody, and neither does a name', async () => {
  expect((await shown({ clinician: '0000000000' })).rows).toEqual([])
  expect((await shown({ clinician: 'Ulq' })).rows).toEqual([])
})

test('a pseudonym quality gave leads to its patient and to nobody else, and so says the log', async () => {
  const pseudonym = granted(await openPatient(callOf(store, 'physician'), 'P2')).pseudonym ?? ''
  const cohort = granted(await showCohort(callOf(store, 'quality'), { ...EVERYBODY, sort: 'urgency' }))
  expect(cohort.rows.map((row) => row.pseudonym)).toContain(pseudonym)
  for (const asked of [pseudonym, pseudonym.toLowerCase()])
    expect((await shown({ pseudonym: asked })).rows.map((row) => row.patientId)).toEqual(['P2'])
  const [latest] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
  expect(latest?.event).toEqual({ action: 'list-shown', patients: ['P2'] })
  for (const nobodys of ['AAAAA-AAAAA-AAAAA', 'P2', 'x']) expect((await shown({ pseudonym: nobodys })).rows).toEqual([])
  const file = granted(await exportList(callOf(store, 'navigator'), { query: { ...ALL, pseudonym } }))
  expect(file.text.match(/\bP[123]\b/g)).toEqual(['P2'])
})

test('without a key the patient page has no pseudonym, and a list by pseudonym says why it is not shown', async () => {
  vi.stubEnv('LOWMARK_PSEUDONYM_KEY_FILE', '')
  expect(granted(await openPatient(callOf(store, 'physician'), 'P2')).pseudonym).toBeNull()
  const query = { ...ALL, pseudonym: 'AAAAA-AAAAA-AAAAA' }
  for (const outcome of [await showList(callOf(store, 'navigator'), query), await exportList(callOf(store, 'navigator'), { query })])
    expect(outcome).toMatchObject({ ok: false, kind: 'unavailable', reason: expect.stringContaining('LOWMARK_PSEUDONYM_KEY_FILE is missing') })
  expect((await shown({})).rows).toHaveLength(3)
  vi.unstubAllEnvs()
})
