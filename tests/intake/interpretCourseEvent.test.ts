import { expect, test } from 'vitest'
import { interpretCourseEvent } from '../../lib/intake/index.ts'
import { patient, rowOf, TODAY } from './rows.ts'

const read = (fields: Readonly<Record<string, string>>) =>
  interpretCourseEvent(rowOf({ patient_id: 'P1', on: '2026-01-05', ...fields }), patient(), TODAY)

test.each([
  [
    { event: 'diagnosis', phase: 'active', heavy_chain: 'G', light_chain: 'kappa' },
    { phase: 'active', heavyChain: 'G', lightChain: 'kappa' },
  ],
  [{ event: 'phase', phase: 'active' }, { phase: 'active' }],
  [
    { event: 'line-start', line: '1', regimen: 'Daratumumab + lenalidomide', intent: 'induction' },
    { line: 1, regimen: ['daratumumab', 'lenalidomide'], intent: 'induction' },
  ],
  [{ event: 'line-end', line: '1' }, { line: 1 }],
  [
    { event: 'imaging', modality: 'mri', focal_lesions_5mm: '2', lytic_lesions: '' },
    { modality: 'mri', focalLesions5mm: 2, lyticLesions: null, growthPercent: null },
  ],
  [
    { event: 'marrow', abnormalities: 't(4;14);del(17p)', mrd: 'positive' },
    { abnormalities: ['t(4;14)', 'del(17p)'], mrd: 'positive', plasmaCellsPercent: null },
  ],
  [{ event: 'bone-agent', regimen: 'zoledronic acid' }, { regimen: ['zoledronic acid'] }],
  [{ event: 'left', reason: 'discharged' }, { reason: 'discharged' }],
])('%o is read', (fields, value) => {
  const { event } = fields
  expect(read(fields)).toMatchObject({ outcome: 'take', value: { event, on: '2026-01-05', ...value } })
})

test.each([
  [{ event: 'birthday' }, 'refused', 'bad-word'],
  [{ event: 'phase', phase: '' }, 'refused', 'missing-field'],
  [{ event: 'phase', phase: 'Active' }, 'refused', 'bad-word'],
  [{ event: 'phase', phase: 'active', regimen: 'bortezomib' }, 'refused', 'column-not-used'],
  [{ event: 'line-start', line: '1.5' }, 'refused', 'not-a-whole-number'],
  [{ event: 'line-start', line: '0' }, 'refused', 'not-a-whole-number'],
  [{ event: 'imaging', modality: 'ct', lytic_lesions: '-1' }, 'refused', 'negative'],
  [{ event: 'phase', phase: 'active', on: '2026-02-30' }, 'refused', 'bad-date'],
  [{ event: 'imaging', modality: 'ct', lytic_lesions: 'several' }, 'held', 'value-unreadable'],
  [{ event: 'marrow', plasma_cells_percent: '12,5' }, 'held', 'decimal-comma'],
  [{ event: 'marrow', plasma_cells_percent: '101' }, 'held', 'out-of-range'],
  [{ event: 'phase', phase: 'active', on: '2026-07-01' }, 'held', 'happened-in-future'],
  [{ event: 'phase', phase: 'active', on: '1950-03-11' }, 'held', 'happened-before-birth'],
  [{ event: 'phase', phase: 'active', patient_id: 'P2' }, 'held', 'unknown-patient'],
])('%o is %s: %s', (fields, outcome, reason) => {
  expect(read(fields)).toMatchObject({ outcome, reason })
})
