import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { PatientPage } from '../../app/_parts/patient/index.ts'
import { patientView } from '../../lib/usecases/patientView.ts'
import { series } from '../builders/history.ts'
import { assessed } from '../charts/assessed.ts'
import { RETURNING, RETURNING_TODAY } from '../charts/invented.ts'

const view = { ...patientView(assessed(RETURNING, RETURNING_TODAY)), name: 'Invented, Person', why: 'The sentence why.' }
const markup = renderToStaticMarkup(<PatientPage patient={view} />)

test('a finding leads back to file, row, laboratory and the text as received', () => {
  const finding = view.findings.find(({ rule }) => rule === 'pd-serum')
  expect(finding?.evidence.find(({ role }) => role === 'current')).toMatchObject({
    value: '15',
    collectedOn: '2025-09-20',
    sources: [{ fileName: 'results.csv', line: 13, received: '15 g/L', laboratory: 'North laboratory' }],
  })
  expect(finding?.evidence.some(({ sources }) => sources.length === 0)).toBe(false)
})

test('dFLC as evidence names both chains it was made from', () => {
  const lightChainOnly = assessed(
    {
      diagnosis: ['2024-01-01', 'active', { heavy: 'none', light: 'kappa' }],
      lines: [{ start: '2024-01-05' }],
      results: [
        ...series('kappa-flc', 'mg/L', { '2024-01-01': '900', '2024-03-01': '20', '2024-06-01': '141' }),
        ...series('lambda-flc', 'mg/L', { '2024-01-01': '5', '2024-03-01': '8', '2024-06-01': '<2' }),
      ],
    },
    '2024-06-10',
  )
  const { findings } = patientView(lightChainOnly)
  const current = findings.find(({ rule }) => rule === 'pd-light-chain')?.evidence.find(({ role }) => role === 'current')
  expect(current?.sources.map(({ received }) => received)).toEqual(['141 mg/L', '<2 mg/L'])
})

test('the caution, the sentence why and the window in words are there', () => {
  expect(markup).toContain('It does not diagnose, attribute or treat; local protocol and the treating physician decide.')
  expect(markup).toContain('On schedule.')
  expect(markup).toContain('The sentence why.')
})

test('headings go down by one level at a time, from one of level 1', () => {
  const levels = [...markup.matchAll(/<h([1-6])/g)].map((found) => Number(found[1]))
  expect(levels.filter((level) => level === 1)).toEqual([1])
  levels.forEach((level, at) => {
    expect(level - (levels[at - 1] ?? 0)).toBeLessThanOrEqual(1)
  })
})

test('every table has a caption, and every heading cell says what it heads', () => {
  expect(markup.match(/<table/g)?.length).toBe(markup.match(/<caption/g)?.length)
  expect(markup).not.toMatch(/<th(?! scope=)[ >]/)
})

test('names are isolated, ages of a month of birth are not more exact than they are', () => {
  expect(markup).toContain('<bdi>Invented, Person</bdi>')
  expect(markup).toContain('70 or 69 years')
})

test('no finding, nothing due, no history: each is said', () => {
  const quiet = renderToStaticMarkup(<PatientPage patient={patientView(assessed({}, '2025-01-01'))} />)
  for (const said of [
    'Nothing is found in the latest samples.',
    'No test is due.',
    'No finding has ended.',
    'No serum M-protein result is recorded.',
  ]) {
    expect(quiet).toContain(said)
  }
})

test('an immunofixation stands with its text as received, and what was not read is said before the table', () => {
  const words = {
    diagnosis: ['2024-01-01', 'active', { heavy: 'A', light: 'kappa' }],
    results: [
      ['2024-02-01', 'serum-immunofixation', 'IgA κ, faint'],
      ['2024-03-01', 'serum-immunofixation', '<b>IgA kappa</b> no longer seen'],
      ['2024-03-01', 'urine-immunofixation', 'free kappa'],
    ],
  } as const
  const page = renderToStaticMarkup(<PatientPage patient={patientView(assessed(words, '2024-06-01'))} />)
  expect(page).toContain('1 text was not understood and must be read by a person; no rule counts them.')
  expect(page).toContain('&lt;b&gt;IgA kappa&lt;/b&gt; no longer seen')
  expect(page).toContain('IgA kappa: the original protein.')
  expect(page).toContain('free kappa: the original light chain, beside the whole protein.')
  expect(renderToStaticMarkup(<PatientPage patient={patientView(assessed({}, '2025-01-01'))} />)).toContain('No immunofixation is recorded.')
})

test('computed values name their formula', () => {
  expect(markup).toContain('CKD-EPI 2021, creatinine (Inker, NEJM 2021;385:1737)')
  const words = { results: [...series('calcium', 'mmol/L', { '2024-02-01': '1.83' }), ...series('albumin', 'g/L', { '2024-02-01': '26' })] }
  const page = renderToStaticMarkup(<PatientPage patient={patientView(assessed(words, '2024-06-01'))} />)
  expect(page).toContain(
    '<b>2.11 mmol/L</b> on 2024-02-01, from total calcium 1.83 mmol/L, albumin 26 g/L. Shown beside total calcium, never instead of it',
  )
})
