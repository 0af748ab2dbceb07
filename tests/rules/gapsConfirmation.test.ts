import { describe, expect, test } from 'vitest'
import { says } from '../../lib/rules/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { gapsOn } from './gapsOn.ts'
import { active, every4Weeks, smouldering } from './patients.ts'

const overdueOn = (words: HistoryWords, today: string) => gapsOn('confirmation-overdue', words, today)

const serum = (values: readonly string[]) => active(every4Weeks('serum-m-protein', 'g/L', values))
const chains = (kappa: readonly string[]) => [
  ...every4Weeks('kappa-flc', 'mg/L', kappa),
  ...every4Weeks(
    'lambda-flc',
    'mg/L',
    kappa.map(() => '1'),
  ),
]
const response = (last: string): HistoryWords => ({
  diagnosis: ['2023-01-02', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2023-01-02' }],
  marrow: [['2024-06-03', '1']],
  results: [
    ['2024-06-03', 'serum-immunofixation', 'negative'],
    ['2024-06-03', 'urine-immunofixation', 'negative'],
    ['2024-07-01', 'serum-immunofixation', last],
  ],
})

describe('confirmation-overdue: the sample of 2024-07-01 is expected a second time by 2024-07-29', () => {
  test.each([
    ['pd-serum', serum(['10', '15'])],
    ['pd-light-chain', active(chains(['201', '401']))],
    ['light-chain-escape', active([...chains(['11', '501']), ...every4Weeks('serum-m-protein', 'g/L', ['20', '20'])])],
    ['relapse-from-cr', response('IgG kappa')],
    ['mde-calcium', smouldering(every4Weeks('calcium', 'mmol/L', ['2.4', '2.8']))],
    ['mde-renal', smouldering(every4Weeks('creatinine', 'umol/L', ['80', '180']))],
    ['mde-anaemia', smouldering(every4Weeks('haemoglobin', 'g/L', ['130', '99']))],
    ['mde-light-chain', smouldering(chains(['50', '100']))],
  ] as const)('%s', (rule, words) => {
    expect(overdueOn(words, '2024-07-29')).toEqual([])
    expect(overdueOn(words, '2024-07-30')).toMatchObject([
      {
        window: 'within-7-days',
        state: 'met',
        certainty: 'certain',
        since: '2024-07-29',
        facts: { rule, on: '2024-07-01', expectedBy: '2024-07-29' },
      },
    ])
  })

  test.each([
    ['a second sample confirmed it', serum(['10', '15', '15'])],
    ['a second sample no longer shows it', serum(['10', '15', '10'])],
    ['nothing was found', serum(['10', '14.9'])],
    ['a danger is met by one sample', active(every4Weeks('neutrophils', '10*9/L', ['2', '0.4']))],
    ['a clinical relapse by calcium is not one of the awaited', active(every4Weeks('calcium', 'mmol/L', ['2.4', '2.8']))],
    ['a lesion is met at once', active([], { imaging: [['2024-07-01', 'ct', { newLesions: 1 }]] })],
  ] as const)('quiet: %s', (_, words) => {
    expect(overdueOn(words, '2025-06-30')).toEqual([])
  })

  test('quiet: two samples show it, though only against a lowest value reached once', () => {
    expect(overdueOn(serum(['20', '10', '15', '15']), '2025-06-30')).toEqual([])
  })

  test('a possible finding leaves a possible gap, within 30 days', () => {
    expect(overdueOn(serum(['10', '>14']), '2024-07-30')).toMatchObject([{ certainty: 'possible', window: 'within-30-days' }])
  })

  test('it carries the evidence of what waits, and says so', () => {
    const [found] = overdueOn(serum(['10', '15']), '2024-07-30')
    expect(found?.evidence.map(({ role, value }) => [role, value])).toEqual([
      ['reference', '10'],
      ['current', '15'],
    ])
    expect(found === undefined ? '' : says(found)).toBe(
      'The sample of 2024-07-01 suggests progression by serum M-protein; a second sample was expected by 2024-07-29 and has not come.',
    )
  })
})
