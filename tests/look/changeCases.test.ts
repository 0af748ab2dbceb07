import { describe, expect, it } from 'vitest'
import { type HistoryWords, series } from '../builders/history.ts'
import { changeSentences } from './asked.ts'

const serum = (values: Readonly<Record<string, string>>, unit = 'g/L') => series('serum-m-protein', unit, values)
const TREATED: HistoryWords = { diagnosis: ['2024-01-10', 'active', { heavy: 'G', light: 'kappa' }], lines: [{ start: '2024-02-01' }] }
const LOWEST_10 = { '2024-01-20': '40.0', '2024-06-01': '10.0', '2024-07-01': '10.0', '2024-08-01': '10.0' }
const LOWEST_1 = { '2024-01-20': '4.00', '2024-06-01': '1.00', '2024-07-01': '1.00', '2024-08-01': '1.00' }

const expects = (words: HistoryWords, today: string, ...says: readonly string[]) => {
  const sentences = changeSentences(words, today)
  for (const sentence of says) expect(sentences).toContainEqual(expect.stringContaining(sentence))
}

describe('what would change the window', () => {
  // Case 1 of the worked cases: lowest confirmed 10; 14.9 shows nothing, 15.0 does.
  it('names the value that first meets progression, and the one step below it', () => {
    expects(
      { ...TREATED, results: serum(LOWEST_10) },
      '2024-08-02',
      'A next serum M-protein at or above 15.0 g/L is the first to show "Progression by serum M-protein" (unconfirmed): look within 7 days; at 14.9 g/L it would not: look',
    )
  })

  it('speaks in the unit and the steps the laboratory prints', () => {
    expects(
      { ...TREATED, results: serum(LOWEST_1, 'g/dL') },
      '2024-08-02',
      'A next serum M-protein at or above 1.50 g/dL is the first to show',
      'at 1.49 g/dL it would not',
    )
  })

  it('names the second sample that confirms, and that one step below it does not', () => {
    expects(
      { ...TREATED, results: serum({ ...LOWEST_10, '2024-09-01': '15.0' }) },
      '2024-09-02',
      'A second serum M-protein at or above 15.0 g/L confirms "Progression by serum M-protein": look within 7 days; at 14.9 g/L it would no longer be shown',
      'A next serum M-protein at or below 14.9 g/L no longer shows "Progression by serum M-protein"',
    )
  })

  it('takes the day after for the next sample where one was taken today', () => {
    expects(
      { ...TREATED, results: serum({ ...LOWEST_10, '2024-09-01': '15.0' }) },
      '2024-09-01',
      'A second serum M-protein at or above 15.0 g/L confirms',
    )
  })

  // Case 4: a dFLC of 80 needs more than 180, so with an uninvolved chain of 10 more than 190.
  it('moves one chain and leaves the other as last', () => {
    expects(
      {
        diagnosis: ['2024-01-10', 'active', { heavy: 'none', light: 'kappa' }],
        lines: [{ start: '2024-02-01' }],
        results: [
          ...series('kappa-flc', 'mg/L', { '2024-01-20': '900', '2024-06-01': '90', '2024-07-01': '90' }),
          ...series('lambda-flc', 'mg/L', { '2024-01-20': '10', '2024-06-01': '10', '2024-07-01': '10' }),
        ],
      },
      '2024-07-02',
      'A next kappa free light chain at or above 191 mg/L, with lambda free light chain 10 mg/L as last, is the first to show "Progression by free light chains"',
      'at 190 mg/L it would not',
    )
  })

  // Case 9: men from 130 g/L on, and more than 20 g/L below that (from memory, WHO).
  it('knows that low is bad', () => {
    expects(
      { diagnosis: ['2024-01-10', 'smouldering'], results: series('haemoglobin', 'g/L', { '2024-01-10': '125', '2024-04-10': '99' }) },
      '2024-04-11',
      'A second haemoglobin at or below 109 g/L confirms "Myeloma-defining event: anaemia"',
      'A next haemoglobin at or above 110 g/L no longer shows "Myeloma-defining event: anaemia"',
    )
  })

  it('says that a missing test done ends that it is overdue', () => {
    const visit = [
      ...serum({ '2024-01-20': '40', '2024-03-01': '20' }),
      ...series('creatinine', 'umol/L', { '2024-03-01': '80' }),
      ...series('calcium', 'mmol/L', { '2024-03-01': '2.3' }),
    ]
    expects(
      { ...TREATED, results: visit },
      '2024-05-01',
      'The test done on 2024-05-01, serum M-protein, with every value as last, ends "Test overdue"',
    )
  })

  it('says that held rows wait for a decision, not for a sample', () => {
    expects(
      { ...TREATED, results: serum(LOWEST_10), held: [['2024-08-01']] },
      '2024-08-02',
      'Deciding on the held row ends "Results wait in the held queue"',
    )
  })

  it('says until when today’s answer holds, and what the day after brings', () => {
    const blood = { ...TREATED, results: serum(LOWEST_10) }
    const [said = ''] = changeSentences(blood, '2024-08-02').slice(-1)
    expect(said).toMatch(/^If nothing arrives, today's answer holds until 2024-\d\d-\d\d; on 2024-\d\d-\d\d .*: look .*\.$/)
    expect(changeSentences({}, '2024-08-02')).toEqual(['If nothing arrives, no day changes what is said today.'])
  })
})
