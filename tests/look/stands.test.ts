import { describe, expect, it } from 'vitest'
import { type HistoryWords, series } from '../builders/history.ts'
import { standsOn } from './asked.ts'

const serum = (values: Readonly<Record<string, string>>, unit = 'g/L') => series('serum-m-protein', unit, values)
const MGUS: HistoryWords = { diagnosis: ['2024-01-10', 'mgus', { heavy: 'G', light: 'kappa' }] }
const ACTIVE: HistoryWords = { diagnosis: ['2024-01-10', 'active', { heavy: 'G', light: 'kappa' }] }
const TREATED: HistoryWords = { ...ACTIVE, lines: [{ start: '2024-02-01' }] }
const FALL = serum({ '2024-01-20': '40', '2024-06-01': '10', '2024-07-01': '10' })

/** Why it is there, the course, today, and what the sentence must hold, in its order. */
const TABLE: readonly (readonly [why: string, words: HistoryWords, today: string, says: readonly string[]])[] = [
  [
    'nothing at all',
    {},
    '2024-06-01',
    ['No phase of the disease is recorded; no result has come; look on schedule, nothing open, but without a phase'],
  ],
  [
    'results and no phase',
    { results: serum({ '2024-05-01': '12' }) },
    '2024-06-01',
    [
      'No phase of the disease is recorded; serum M-protein 12 g/L on 2024-05-01 (31 days ago), with no baseline',
      'look within 30 days, because of "No phase recorded".',
    ],
  ],
  [
    'MGUS, baseline only',
    { ...MGUS, results: serum({ '2024-01-20': '12' }) },
    '2024-02-01',
    ['MGUS since 2024-01-10; serum M-protein 12 g/L on 2024-01-20 (12 days ago), with no baseline', 'look'],
  ],
  [
    'MGUS against its baseline, away from the level of smouldering',
    { ...MGUS, results: serum({ '2024-01-20': '12', '2024-06-20': '12.4' }) },
    '2024-06-21',
    [
      '12.4 g/L on 2024-06-20 (1 day ago), 0.4 g/L (3.3 %) above its baseline 12 g/L of 2024-01-20, 17.6 g/L below the level of smouldering myeloma (30 g/L);',
    ],
  ],
  [
    'MGUS on the level',
    { ...MGUS, results: serum({ '2024-01-20': '12', '2024-06-20': '30' }) },
    '2024-06-20',
    ['30 g/L on 2024-06-20 (today), 18 g/L (150 %) above', 'at or past the level of smouldering myeloma (30 g/L)'],
  ],
  [
    'smouldering: no fixed level',
    { diagnosis: ['2024-01-10', 'smouldering'], results: serum({ '2024-01-20': '32', '2024-04-20': '33', '2024-07-20': '33' }) },
    '2024-07-21',
    [
      'Smouldering myeloma since 2024-01-10; serum M-protein 33 g/L',
      'the same as its lowest confirmed 33 g/L of 2024-04-20, for which Smouldering myeloma has no fixed level',
    ],
  ],
  [
    'smouldering by light chains: the ratio',
    {
      diagnosis: ['2024-01-10', 'smouldering', { heavy: 'none', light: 'kappa' }],
      results: [
        ...series('kappa-flc', 'mg/L', { '2024-01-20': '200', '2024-04-20': '400' }),
        ...series('lambda-flc', 'mg/L', { '2024-01-20': '10', '2024-04-20': '5' }),
      ],
    },
    '2024-04-21',
    ['involved ratio 80 on 2024-04-20', '20 below the level of a myeloma-defining event (100)'],
  ],
  [
    'active without a line',
    { ...ACTIVE, results: FALL },
    '2024-07-02',
    ['Active myeloma since 2024-01-10, no treatment line recorded; response cannot be told (no treatment line recorded); serum'],
  ],
  [
    'on treatment, partial response provisional without urine',
    { ...TREATED, results: FALL },
    '2024-07-02',
    [
      'Active myeloma since 2024-01-10, on treatment in line 1 since 2024-02-01; PR, confirmed, provisional, since 2024-06-01;',
      'serum M-protein 10 g/L on 2024-07-01 (1 day ago), 30 g/L (75 %) below its lowest confirmed 40 g/L of 2024-01-20, 40 g/L below the level that confirms progression (50 g/L);',
    ],
  ],
  [
    'on maintenance',
    { ...ACTIVE, lines: [{ start: '2024-02-01', intent: 'maintenance' }], results: FALL },
    '2024-07-02',
    ['on maintenance in line 1 since 2024-02-01;'],
  ],
  [
    'off treatment',
    { ...ACTIVE, lines: [{ start: '2024-02-01', end: '2024-06-15' }], results: FALL },
    '2024-07-02',
    ['off treatment since line 1 ended on 2024-06-15;'],
  ],
  [
    'a line without a baseline',
    { ...ACTIVE, lines: [{ start: '2024-03-20' }], results: serum({ '2024-06-01': '10' }) },
    '2024-06-02',
    ['with no baseline to hold it against;', 'because of "Test overdue", and 3 more findings.'],
  ],
  [
    'progression, confirmed, on the level',
    { ...TREATED, results: [...FALL, ...serum({ '2024-08-01': '10', '2024-09-01': '15', '2024-10-01': '15' })] },
    '2024-10-02',
    [
      'PD, confirmed',
      '5 g/L (50 %) above its lowest confirmed 10 g/L of 2024-06-01, at or past the level that confirms progression (15 g/L); look within 7 days, because of "Progression by serum M-protein" (confirmed)',
    ],
  ],
  [
    'light chains: more than',
    {
      diagnosis: ['2024-01-10', 'active', { heavy: 'none', light: 'kappa' }],
      lines: [{ start: '2024-02-01' }],
      results: [
        ...series('kappa-flc', 'mg/L', { '2024-01-20': '900', '2024-06-01': '90', '2024-07-01': '90', '2024-08-01': '100' }),
        ...series('lambda-flc', 'mg/L', { '2024-01-20': '10', '2024-06-01': '10', '2024-07-01': '10', '2024-08-01': '10' }),
      ],
    },
    '2024-08-02',
    [
      'dFLC 90 mg/L on 2024-08-01',
      '10 mg/L (12.5 %) above its lowest confirmed 80 mg/L of 2024-06-01, 90 mg/L below the level that confirms progression (more than 180 mg/L)',
    ],
  ],
  [
    'a lowest value not detected has no percentage',
    { ...TREATED, results: serum({ '2024-01-20': '40', '2024-06-01': 'not detected', '2024-07-01': 'not detected', '2024-08-01': '2' }) },
    '2024-08-02',
    ['2 g/L on 2024-08-01 (1 day ago), 2 g/L above its lowest confirmed not detected of 2024-06-01, 3 g/L below'],
  ],
  [
    'a value known only as a limit',
    { ...TREATED, results: serum({ '2024-01-20': '40', '2024-06-01': '<1', '2024-07-01': '<1', '2024-08-01': '<1' }) },
    '2024-08-02',
    [
      'serum M-protein <1 g/L on 2024-08-01',
      'where a value known only as a limit leaves the change open, not yet past the level that confirms progression (6 g/L)',
    ],
  ],
  [
    'words after the number',
    { ...TREATED, results: [...FALL, ['2024-08-01', 'serum-m-protein', 'trace']] },
    '2024-08-02',
    ['10 g/L on 2024-07-01 (32 days ago), reported as "trace" on 2024-08-01,'],
  ],
  [
    'no sample for long',
    { ...TREATED, results: FALL },
    '2024-12-02',
    ['(154 days ago)', 'look within 7 days, because of "Test overdue", and 4 more findings.'],
  ],
  [
    'held rows',
    { ...TREATED, results: FALL, held: [['2024-06-20'], ['2024-06-21']] },
    '2024-07-02',
    ['; 2 held rows of results nobody has decided on are not in this.'],
  ],
  [
    'left',
    { ...TREATED, results: FALL, left: ['2024-07-10', 'transferred'] },
    '2024-08-02',
    ['nothing due, for the patient is no longer followed since 2024-07-10.'],
  ],
  [
    'plasmacytoma',
    { diagnosis: ['2024-01-10', 'plasmacytoma'] },
    '2024-02-01',
    ['Plasmacytoma since 2024-01-10, no treatment line recorded;', 'no result has come;'],
  ],
  ['amyloidosis', { diagnosis: ['2024-01-10', 'amyloidosis'] }, '2024-02-01', ['Amyloidosis since 2024-01-10']],
  ['plasma cell leukaemia', { diagnosis: ['2024-01-10', 'plasma-cell-leukaemia'] }, '2024-02-01', ['Plasma cell leukaemia since 2024-01-10']],
  [
    'a smaller printed unit',
    { ...MGUS, results: serum({ '2024-01-20': '1.2', '2024-06-20': '1.24' }, 'g/dL') },
    '2024-06-21',
    ['serum M-protein 12.4 g/L on 2024-06-20'],
  ],
]

describe('one sentence of where the patient stands', () => {
  it.each(TABLE)('%s', (_why, words, today, says) => {
    const sentence = standsOn(words, today)
    let at = 0
    for (const part of says) {
      expect(sentence.slice(at)).toContain(part)
      at = sentence.indexOf(part, at) + part.length
    }
    expect(sentence).toMatch(/^[A-Z].*\.$/s)
    expect(sentence.replaceAll(/\d\.\d/g, '').match(/\./g)).toHaveLength(1)
    expect(sentence).not.toMatch(/undefined|null|NaN|\bis are\b/)
  })
})
