import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { type ListQuery, showList } from '../../../lib/usecases/index.ts'
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

const ALL: ListQuery = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 50 }

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
