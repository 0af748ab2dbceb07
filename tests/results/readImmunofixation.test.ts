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
  ['Immunofixation shows a monoclonal IgG kappa band.', [band('G', 'kappa')]],
  ['A monoclonal IgA lambda protein is present in the beta-2 region', [band('A', 'lambda')]],
  ['IgM kappa band migrating in the gamma zone', [band('M', 'kappa')]],
  ['IgGλ', [band('G', 'lambda')]],
  ['IGG KAPPA', [band('G', 'kappa')]],
  ['Immunoglobulin A, kappa type', [band('A', 'kappa')]],
  ['Ig G kappa', [band('G', 'kappa')]],
  ['IgG heavy chain and kappa light chain', [band('G', 'kappa')]],
  ['IgG class, lambda type', [band('G', 'lambda')]],
  ['IgG kappa M-spike', [band('G', 'kappa')]],
  ['A monoclonal IgG kappa band was detected', [band('G', 'kappa')]],
  ['IgG kappa still present', [band('G', 'kappa')]],
  ['Two bands, IgG kappa', [band('G', 'kappa')]],
  ['IFE: very faint IgG kappa', [band('G', 'kappa')]],
  ['monoclonal free light chains, kappa', [band(null, 'kappa')]],
  ['kappa Bence-Jones protein', [band(null, 'kappa')]],
  ['lambda BJP', [band(null, 'lambda')]],
  ['kappa light chain only', [band(null, 'kappa')]],
  ['Lambda light chain without corresponding heavy chain', [band(null, 'lambda')]],
  ['IgG lambda and lambda free light chains', [band('G', 'lambda'), band(null, 'lambda')]],
  ['IgG kappa, IgM lambda and free kappa', [band('G', 'kappa'), band('M', 'lambda'), band(null, 'kappa')]],
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
  'Immunofixation: negative',
  'Serum immunofixation shows no monoclonal band',
  'IFE negative',
  'Negative for monoclonal protein',
  'No monoclonal bands are seen',
  'M-protein not detected',
  'Paraprotein: none detected',
  'monoclonal band absent',
  'No sign of a monoclonal gammopathy',
  'No monoclonal protein or Bence Jones protein detected',
  'Polyclonal pattern, no monoclonal band seen',
  'No evidence of a monoclonal component in the urine',
])('%s is negative', (text) => {
  expect(readImmunofixation(text)).toEqual({ reading: 'negative' })
})

test.each([
  'cannot exclude IgG kappa',
  'A faint band cannot be excluded',
  'equivocal',
  'Inconclusive',
  'A monoclonal band cannot be ruled out',
  'unable to exclude a small IgA lambda',
])('%s excludes nothing', (text) => {
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
  'probable IgG kappa',
  'suggests IgG kappa',
  'suspicious for IgG kappa',
  'consistent with IgG kappa',
  'IgG kappa, previously IgA lambda',
  'known IgG kappa',
  'IgG kappa was not seen',
  'IgG kappa and a second faint band',
  'IgG and IgA kappa',
  'IgG kappa/lambda',
  'IgG heavy chain',
  'IgG kappa without heavy chain',
  'monoclonal kappa light chain',
  'an immunoglobulin, a kappa band',
  'oligoclonal IgG kappa',
  'No Bence Jones protein detected',
  'no free light chains',
  'No monoclonal IgG detected',
  'No monoclonal band seen except IgG kappa',
  'polyclonal pattern',
  'absence of IgG kappa',
  'IgG kappa 12 g/L',
  'No new monoclonal protein',
])('%s is left to a person', (text) => {
  expect(readImmunofixation(text)).toEqual({ reading: 'unread', text })
})
