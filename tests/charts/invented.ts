import { type HistoryWords, series } from '../builders/history.ts'

/** An invented course with a response, a lowest value, a rise back to the criterion, censored, corrected and second-laboratory results. */
export const RETURNING: HistoryWords = {
  id: 'P77',
  birthDate: '1955-04',
  clinician: 'Invented Clinician',
  diagnosis: ['2022-01-10', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [
    { start: '2022-02-01', end: '2022-12-20', regimen: ['bortezomib', 'lenalidomide', 'dexamethasone'], intent: 'induction' },
    { start: '2023-02-01', regimen: ['lenalidomide'], intent: 'maintenance' },
  ],
  results: [
    ...series('serum-m-protein', 'g/L', {
      '2022-01-20': '42',
      '2022-04-10': '25',
      '2022-08-01': '14',
      '2022-12-01': '11.5',
      '2023-01-20': '11',
      '2023-06-01': '10.5',
      '2023-12-01': '10',
      '2024-05-01': '10',
    }),
    ...series('serum-m-protein', 'g/dL', { '2024-11-02': '1.22', '2025-03-04': '1.31' }, { laboratory: 'South laboratory' }),
    ['2025-07-01', 'serum-m-protein', '14.9', 'g/L', { status: 'corrected', version: 2 }],
    ['2025-09-20', 'serum-m-protein', '15', 'g/L'],
    ...series('kappa-flc', 'mg/L', {
      '2022-01-20': '920',
      '2022-08-01': '60',
      '2023-01-20': '28',
      '2024-05-01': '22',
      '2025-07-01': '96',
      '2025-09-20': '141',
    }),
    ...series('lambda-flc', 'mg/L', { '2022-01-20': '3', '2022-08-01': '7', '2023-01-20': '9', '2024-05-01': '8', '2025-07-01': '5' }),
    ['2025-09-20', 'lambda-flc', '<2', 'mg/L'],
    ...series(
      'haemoglobin',
      'g/L',
      { '2022-01-20': '98', '2022-08-01': '121', '2023-01-20': '131', '2024-05-01': '134', '2025-07-01': '124', '2025-09-20': '119' },
      { referenceLow: '130' },
    ),
    ...series(
      'creatinine',
      'umol/L',
      { '2022-01-20': '110', '2022-08-01': '92', '2023-01-20': '88', '2024-05-01': '90', '2025-07-01': '91', '2025-09-20': '95' },
      { referenceHigh: '104' },
    ),
  ],
}

export const RETURNING_TODAY = '2025-10-01'
