import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { acceptFiles, acceptFilesApart, type IncomingFile, type Progress, readReport } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { TEST_SERVER } from '../store/testServer.ts'
import { callOf, granted } from './accounts/persons.ts'
import { counts, csv, only, patientRow, take } from './clinic.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
let before: string | undefined
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
  before = process.env.DATABASE_URL
  process.env.DATABASE_URL = url
})
afterEach(async () => {
  if (before === undefined) delete process.env.DATABASE_URL
  else process.env.DATABASE_URL = before
  await dispose()
})

const HEADER = 'patient_id,collected_at,code,value,unit,accession'

function textFile(name: string, lines: readonly string[]): IncomingFile {
  return { name, bytes: new TextEncoder().encode(`${HEADER}\n${lines.join('\n')}\n`) }
}

const OPTIONS = { source: 'tests', dryRun: false }

test('a process apart takes files in, tells how far it is, and this one answers meanwhile', async () => {
  const people = Array.from({ length: 12 }, (_, index) => patientRow({ patient_id: `P${index}` }))
  await take(store, [csv('patients.csv', people)])
  const lines = Array.from({ length: 12_000 }, (_, index) => `P${index % 12},2026-06-01,33358-3,14.${index % 10},g/L,A${index}`)
  const told: Progress[] = []
  let turns = 0
  const turning = setInterval(() => {
    turns += 1
  }, 10)
  const outcome = granted(
    await acceptFilesApart(callOf(store, 'navigator'), [textFile('r.csv', lines)], { ...OPTIONS, onProgress: (one) => told.push(one) }),
  )
  clearInterval(turning)
  expect(outcome.map(counts)).toEqual([only({ rows: 12_000, filed: 12_000 })])
  expect(told).toContainEqual({ step: 'r.csv: rows read', done: 10_000, of: 12_000 })
  expect(told).toContainEqual({ step: 'r.csv: rows filed', done: 10_000, of: 12_000 })
  expect(turns).toBeGreaterThan(20)
  expect(store.reader.file(outcome[0]?.fileId ?? 0)).toMatchObject({ receivedBy: 'a navigator', filed: 12_000 })
})

test('a long answer arrives: its first thousand rows, and every one in the report', async () => {
  const lines = Array.from({ length: 40_000 }, (_, index) => `P1,2026-02-30,33358-3,14.2,g/L,A${index}`)
  const [report] = granted(await acceptFilesApart(callOf(store), [textFile('r.csv', lines)], OPTIONS))
  expect(report?.problems.map(({ line }) => line)).toEqual(Array.from({ length: 1_000 }, (_, at) => at + 2))
  expect(granted(await readReport(callOf(store), report?.fileId ?? 0)).problems).toHaveLength(40_000)
})

test('a database that cannot be opened is an answer with its reason', async () => {
  const nowhere: Store = { ...store, url: 'file:./package.json/nowhere.db' }
  const lines = Array.from({ length: 200 }, (_, index) => `P1,2026-06-01,33358-3,14.2,g/L,N${index}`)
  const outcome = await acceptFilesApart(callOf(nowhere), [textFile('r.csv', lines)], OPTIONS)
  expect(outcome).toMatchObject({ ok: false, kind: 'unavailable', reason: expect.stringContaining('The files could not be taken in') })
})

// A server is told of each row by itself, and answers: fewer rows in the same time.
const MANY = TEST_SERVER === null ? 100_000 : 10_000

test(`${MANY} rows of 400 patients are taken in part by part`, async () => {
  const people = Array.from({ length: 400 }, (_, index) => patientRow({ patient_id: `P${index}` }))
  await take(store, [csv('patients.csv', people)])
  const codes = [
    '33358-3,14.2,g/L',
    '718-7,131,g/L',
    '14682-9,80,umol/L',
    '17861-6,2.31,mmol/L',
    '36916-5,24,mg/L',
    '33944-0,15,mg/L',
    '777-3,210,10*9/L',
    '1751-7,41,g/L',
  ]
  const lines = Array.from({ length: MANY }, (_, index) => {
    const nth = Math.floor(index / 400)
    const on = new Date(Date.UTC(2018, 0, 15 + Math.floor(nth / codes.length) * 90)).toISOString().slice(0, 10)
    return `P${index % 400},${on},${codes[nth % codes.length]},A${nth}`
  })
  const timed: Store = {
    ...store,
    record: (call, change) =>
      store.record(call, (tx) => {
        const begun = performance.now()
        try {
          return change(tx)
        } finally {
          longest = Math.max(longest, performance.now() - begun)
        }
      }),
  }
  let longest = 0
  const begun = performance.now()
  const [report] = granted(await acceptFiles({ ...callOf(store), store: timed }, [textFile('r.csv', lines)], OPTIONS))
  const whole = performance.now() - begun
  process.stdout.write(`${MANY} rows of 400 patients: ${(whole / 1000).toFixed(1)} s; others wait to write for ${Math.round(longest)} ms at most\n`)
  expect(report === undefined ? null : counts(report)).toEqual(only({ rows: MANY, filed: MANY }))
})

test('a few rows are taken in here, for starting a process takes longer; that they cannot be kept is the same answer', async () => {
  const lines = ['P1,2026-05-04,33358-3,14.2,g/L,F1']
  const file = textFile('few.csv', lines)
  // Another program would find nothing at this address.
  const here: Store = { ...store, url: 'file:./package.json/nowhere.db' }
  expect(granted(await acceptFilesApart(callOf(here), [file], OPTIONS)).map(counts)).toEqual([only({ rows: 1, held: 1 })])
  const full: Store = { ...store, record: () => Promise.reject(new Error('no room')) }
  expect(await acceptFilesApart(callOf(full), [textFile('more.csv', lines)], OPTIONS)).toMatchObject({
    ...{ ok: false, kind: 'unavailable', reason: 'The files could not be taken in: no room' },
  })
})
