import { afterEach, beforeEach, expect, test } from 'vitest'
import { FILE_CHUNK_BYTES, type Store } from '../../lib/store/index.ts'
import { acceptFiles, type FileReport, type RowProblem, readReport } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const HEADER = 'patient_id,collected_at,code,value,unit,accession,method'
const file = (lines: readonly string[]) => ({ name: 'r.csv', bytes: new TextEncoder().encode(`${HEADER}\n${lines.join('\n')}\n`) })
// Refused for its day, or held for its patient, in turn.
const BAD = Array.from({ length: 2_600 }, (_, at) => `P1,2026-0${at % 2 === 0 ? 2 : 1}-30,33358-3,14.2,g/L,A${at},`)

test.each([false, true])('a report holds its first thousand rows; all of them are told one after another (dry run: %s)', async (dryRun) => {
  const told: RowProblem[] = []
  const onReports = (reports: readonly FileReport[], problemsOf: (report: FileReport) => Iterable<RowProblem>) => {
    for (const report of reports) told.push(...problemsOf(report))
  }
  const [report] = granted(await acceptFiles(callOf(store), [file(BAD)], { source: null, dryRun, onReports }))
  expect(report).toMatchObject({ rows: 2_600, held: 1_300, refused: 1_300, fileId: dryRun ? null : 1 })
  expect(told.map(({ line, outcome }) => [line, outcome])).toEqual(BAD.map((_, at) => [at + 2, at % 2 === 0 ? 'refused' : 'held']))
  expect(told.map(({ row }) => row)).toEqual(BAD)
  expect(report?.problems).toEqual(told.slice(0, 1_000))
  if (!dryRun) expect(granted(await readReport(callOf(store), 1)).problems).toEqual(told)
})

test('the bytes of a large file are spread over its parts; a file of few rows and many bytes has parts without rows', async () => {
  const wide = 'x'.repeat(FILE_CHUNK_BYTES)
  const rows = Array.from({ length: 18 }, (_, at) => `P1,2026-01-30,33358-3,14.2,g/L,A${at},${wide}`)
  const sent = file(rows)
  const [report] = granted(await acceptFiles(callOf(store), [sent], { source: null, dryRun: false }))
  expect(report).toMatchObject({ rowsInFile: 18, rows: 18, held: 18 })
  const entries = store.reader.trailPage({ actor: null, limit: 3, offset: 0 }).rows.map(({ event }) => event)
  expect(entries.map((event) => (event.action === 'intake' ? [event.part, event.parts, event.rows] : []))).toEqual([
    [3, 3, 0],
    [2, 3, 0],
    [1, 3, 18],
  ])
  expect(Buffer.compare(store.reader.fileBytes(1) ?? Buffer.alloc(0), sent.bytes)).toBe(0)
})

test('a large file that is refused whole is kept in pieces too, each with its entry', async () => {
  const bytes = new TextEncoder().encode(`nonsense\n${'x'.repeat(9 * FILE_CHUNK_BYTES)}\n`)
  const [report] = granted(await acceptFiles(callOf(store), [{ name: 'bad.csv', bytes }], { source: null, dryRun: false }))
  expect(report).toMatchObject({ fileId: 1, refusedWhole: { reason: 'unknown-header' } })
  const entries = store.reader.trailPage({ actor: null, limit: 2, offset: 0 }).rows.map(({ event }) => event)
  expect(entries).toMatchObject([
    { action: 'intake-refused', part: 2, parts: 2 },
    { action: 'intake-refused', part: 1, parts: 2 },
  ])
  expect(Buffer.compare(store.reader.fileBytes(1) ?? Buffer.alloc(0), bytes)).toBe(0)
  expect(store.reader.verifyTrail().firstBad).toBeNull()
})

test('a character that two stretches of reading divide is whole, and the byte of a bad one is counted from the beginning', async () => {
  const row = (text: string) => `P1,2026-01-30,33358-3,14.2,g/L,A1,${text}`
  const before = new TextEncoder().encode(`${HEADER}\n${row('')}`).length
  for (const shift of [1, 2, 3]) {
    const { bytes } = file([row(`${'x'.repeat(FILE_CHUNK_BYTES - before - shift)}\u{1f600}end`)])
    const [report] = granted(await acceptFiles(callOf(store), [{ name: 'r.csv', bytes }], { source: null, dryRun: true }))
    expect(report?.problems[0]?.row.endsWith('x\u{1f600}end')).toBe(true)
    const bad = bytes.slice()
    bad[FILE_CHUNK_BYTES - shift + 3] = 0x41
    const [refused] = granted(await acceptFiles(callOf(store), [{ name: 'r.csv', bytes: bad }], { source: null, dryRun: true }))
    expect(refused?.refusedWhole).toMatchObject({ reason: 'not-utf-8', sentence: expect.stringContaining(`byte ${FILE_CHUNK_BYTES - shift + 1} `) })
  }
})
