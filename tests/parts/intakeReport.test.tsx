import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { Report } from '../../app/intake/Report.tsx'
import type { FileReport } from '../../lib/usecases/index.ts'

const COUNTS = { rowsInFile: 3, rows: 3, filed: 1, known: 0, corrected: 0, held: 2, refused: 0, released: 0, patientsAdded: 0 }
const PROBLEM = { line: 2, outcome: 'held', reason: 'kind-not-read', sentence: 'value is given as "valueInteger".', row: '{}' } as const
const REPORT: FileReport = {
  fileId: 1,
  fileName: 'bundle.json',
  sha256: '0'.repeat(64),
  bytes: 100,
  kind: null,
  source: null,
  receivedAt: '2026-06-30T08:00:00Z',
  receivedBy: 'a navigator',
  dryRun: false,
  refusedWhole: null,
  ...COUNTS,
  problems: [PROBLEM, { ...PROBLEM, sentence: 'value is given as "valueBoolean".' }],
}

test('a file of patients and results says so; two rows from one place are both shown', () => {
  const html = renderToStaticMarkup(<Report report={REPORT} />)
  expect(html).toContain('patients and results file, 100 bytes')
  expect([...html.matchAll(/<td data-label="Row">2<\/td>/g)]).toHaveLength(2)
})

test('a file refused whole has no kind', () => {
  const refusedWhole = { reason: 'broken-json', sentence: 'bundle.json cannot be read as JSON.' }
  const html = renderToStaticMarkup(<Report report={{ ...REPORT, rowsInFile: 0, rows: 0, filed: 0, held: 0, problems: [], refusedWhole }} />)
  expect(html).toContain('Kind not told')
})
