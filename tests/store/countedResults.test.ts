import { expect, test } from 'vitest'
import { fillDemonstration } from '../../lib/usecases/index.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { csv, patientRow, resultRow, take } from '../usecases/clinic.ts'
import { freshStore } from './freshStore.ts'

test('histories read for evaluating many are those read for one, but for the name of the file and the time of the report', async () => {
  const { store, dispose } = await freshStore()
  granted(await fillDemonstration(callOf(store), { patients: 12, years: 3, seed: 7 }))
  await take(store, [
    csv('p.csv', [patientRow({ patient_id: 'Odd "1"' })]),
    csv('r.csv', [
      resultRow({ patient_id: 'Odd "1"', value: '<0.1', laboratory: 'Größe "North", \\ 7', reported_at: '2026-06-02', accession: '1' }),
      resultRow({ patient_id: 'Odd "1"', value: 'trace', accession: '2' }),
      resultRow({ patient_id: 'Odd "1"', value: 'haemolysed', code: '2160-0', unit: 'umol/L', accession: '3' }),
      resultRow({ patient_id: 'Odd "1"', value: 'IgG kappa', code: '25700-6', unit: '', accession: '4' }),
    ]),
  ])
  for (const patientId of store.reader.patientIds()) {
    const [whole, counted] = [store.reader.loadHistory(patientId), store.reader.loadCounted(patientId)]
    const without = whole?.history.results.map((result) => ({ ...result, reportedAt: null, provenance: { ...result.provenance, fileName: '' } }))
    expect(counted).toEqual({ ...whole, history: { ...whole?.history, results: without } })
  }
  expect(store.reader.loadCounted('Odd "1"')?.history.results).toHaveLength(4)
  expect(store.reader.loadCounted('nobody')).toBeNull()
  await dispose()
}, 60_000)
