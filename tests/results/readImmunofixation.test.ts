import { expect, test } from 'vitest'
import { type Band, readImmunofixation } from '../../lib/results/index.ts'

const band = (heavy: Band['heavy'], light: Band['light']): Band => ({ heavy, light })

test.each([
  ['IgG kappa', [band('G', 'kappa')]],
  ['IgA lambda', [band('A', 'lambda')]],
  ['IgG-κ', [band('G', 'kappa')]],
  ['Positive: monoclonal IgM lambda band detected', [band('M', 'lambda')]],
  ['faint IgG kappa', [band('G', 'kappa')]],
  ['free kappa light chains', [band(null, 'kappa')]],
  ['lambda free light chain', [band(null, 'lambda')]],
  ['Bence Jones protein, kappa', [band(null, 'kappa')]],
  ['IgD', [band('D', null)]],
  ['IgG kappa and IgA lambda', [band('G', 'kappa'), band('A', 'lambda')]],
  ['biclonal: IgG kappa + IgG lambda', [band('G', 'kappa'), band('G', 'lambda')]],
  ['IgA kappa with free kappa light chains.', [band('A', 'kappa'), band(null, 'kappa')]],
])('%s is positive', (text, bands) => {
  expect(readImmunofixation(text)).toEqual({ reading: 'positive', bands })
})

test.each([
  'negative',
  'Negative.',
  'neg',
  'not detected',
  'none detected',
  'No monoclonal protein',
  'no monoclonal band seen',
  'No evidence of a monoclonal protein',
  'No monoclonal immunoglobulin detected in urine',
  'no M-protein detected',
  'no paraprotein detected',
])('%s is negative', (text) => {
  expect(readImmunofixation(text)).toEqual({ reading: 'negative' })
})

test.each(['cannot exclude IgG kappa', 'A faint band cannot be excluded', 'equivocal'])('%s excludes nothing', (text) => {
  expect(readImmunofixation(text)).toEqual({ reading: 'cannot-exclude' })
})

test.each([
  'IgG kappa no longer seen',
  'IgG kappa not detected',
  'previously IgG kappa',
  'positive',
  'biclonal',
  'kappa',
  'see comment',
  '',
  'no',
  'IgG kappa present, a second band cannot be excluded',
  'IgX kappa',
  'IgG kappa lambda ratio',
  '__proto__',
  'no change',
])('%s is left to a person', (text) => {
  expect(readImmunofixation(text)).toEqual({ reading: 'unread', text })
})
