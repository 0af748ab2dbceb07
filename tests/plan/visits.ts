import type { ResultRow } from '../builders/history.ts'

/** What one visit's blood holds: every group of blood tests of the plan, all values quiet. */
export function blood(on: string, serum = '20'): ResultRow[] {
  return [
    [on, 'serum-m-protein', serum],
    [on, 'kappa-flc', '30'],
    [on, 'lambda-flc', '25'],
    [on, 'haemoglobin', '135'],
    [on, 'platelets', '220'],
    [on, 'neutrophils', '3.5'],
    [on, 'creatinine', '80'],
    [on, 'calcium', '2.35'],
  ]
}

/** A 24-hour urine. */
export function urine(on: string, value = '300'): ResultRow[] {
  return [[on, 'urine-m-protein', value]]
}

/** IgG, IgA and IgM of one day. */
export function immunoglobulins(on: string): ResultRow[] {
  return [
    [on, 'igg', '22'],
    [on, 'iga', '1'],
    [on, 'igm', '0.5'],
  ]
}
