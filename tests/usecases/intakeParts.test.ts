import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { acceptFiles, readReport, recheck } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { csv, patientRow, resultRow } from './clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const PATIENTS = ['P1', 'P2', 'P3', 'P4', 'P5']
// Five patients of 900 rows, told in turn: two of them fit a part of 2,000 rows.
const ROWS = Array.from({ length: 4_500 }, (_, at) =>
  resultRow({ patient_id: PATIENTS[at % 5] ?? '', accession: `A${at}`, collected_at: `20${10 + (at % 15)}-0${1 + (at % 9)}-${10 + (at % 18)}` }),
)
const FILE = csv('large.csv', ROWS)

async function addPatients(): Promise<void> {
  const patients = csv(
    'patients.csv',
    PATIENTS.map((patient_id) => patientRow({ patient_id })),
  )
  granted(await acceptFiles(callOf(store), [patients], { source: null, dryRun: false }))
}

test('a large file is taken in part by part, a patient never in two; the entries of the log add up to the report', async () => {
  await addPatients()
  const [report] = granted(await acceptFiles(callOf(store), [FILE], { source: null, dryRun: false }))
  expect(report).toMatchObject({ rowsInFile: 4_500, rows: 4_500, filed: 4_500 })
  const entries = store.reader.trailPage({ actor: null, limit: 3, offset: 0 }).rows.map(({ event }) => event)
  expect(entries.map((event) => (event.action === 'intake' ? [event.part, event.parts, event.filed] : []))).toEqual([
    [3, 3, 900],
    [2, 3, 1_800],
    [1, 3, 1_800],
  ])
})

test('an interruption leaves whole parts and says so; the same file again files the rest and nothing twice', async () => {
  await addPatients()
  const stop = ({ step, done }: { step: string; done: number }) => {
    if (step.endsWith('rows filed') && done === 3_600) throw new Error('the power went')
  }
  await expect(acceptFiles(callOf(store), [FILE], { source: null, dryRun: false, onProgress: stop })).rejects.toThrow('the power went')
  const fileId = store.reader.recentFiles(1)[0]?.id ?? 0
  expect(granted(await readReport(callOf(store), fileId))).toMatchObject({ rowsInFile: 4_500, rows: 3_600, filed: 3_600 })
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  const [again] = granted(await acceptFiles(callOf(store), [FILE], { source: null, dryRun: false }))
  expect(again).toMatchObject({ rows: 4_500, known: 3_600, filed: 900 })
  expect(store.reader.verifyTrail().firstBad).toBeNull()
})
