import type { HistoryWords, ResultMore, ResultRow } from '../builders/history.ts'

type Analyte = ResultRow[1]

/** Days four weeks apart, from the first sample of a patient on. */
const DAYS = [
  '2024-06-03',
  '2024-07-01',
  '2024-07-29',
  '2024-08-26',
  '2024-09-23',
  '2024-10-21',
  '2024-11-18',
  '2024-12-16',
  '2025-01-13',
  '2025-02-10',
  '2025-03-10',
]

/** The day of sample `at`, from 0. */
export function sampleDay(at: number): string {
  return DAYS[at] ?? ''
}

/** One analyte sampled every four weeks; an empty text leaves a sample out. */
export function every4Weeks(analyte: Analyte, unit: string, values: readonly string[], more: ResultMore = {}): ResultRow[] {
  return values.flatMap((value, at): ResultRow[] => (value === '' ? [] : [[sampleDay(at), analyte, value, unit, more]]))
}

/** Active IgG kappa myeloma with one line begun on the day of the first sample. */
export function active(results: readonly ResultRow[], more: HistoryWords = {}): HistoryWords {
  return { diagnosis: ['2024-06-01', 'active', { heavy: 'G', light: 'kappa' }], lines: [{ start: '2024-06-03' }], results, ...more }
}

/** Smouldering IgG kappa myeloma, diagnosed two days before the first sample. */
export function smouldering(results: readonly ResultRow[], more: HistoryWords = {}): HistoryWords {
  return { diagnosis: ['2024-06-01', 'smouldering', { heavy: 'G', light: 'kappa' }], results, ...more }
}

/** A course without any recorded phase. */
export function unrecorded(results: readonly ResultRow[]): HistoryWords {
  return { results }
}

/** IgG kappa MGUS, diagnosed two days before the first sample. */
export function mgus(results: readonly ResultRow[], more: HistoryWords = {}): HistoryWords {
  return { diagnosis: ['2024-06-01', 'mgus', { heavy: 'G', light: 'kappa' }], results, ...more }
}

/** One analyte on days of its own: `on('haemoglobin', 'g/L', { '2024-06-03': '140' })`. */
export function on(analyte: Analyte, unit: string, values: Readonly<Record<string, string>>, more: ResultMore = {}): ResultRow[] {
  return Object.entries(values).map(([day, value]) => [day, analyte, value, unit, more] as const)
}
