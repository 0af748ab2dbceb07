import { csv, patientRow, type Row, resultRow } from '../clinic.ts'

const BLOOD: readonly (readonly [code: string, value: string, unit: string])[] = [
  ['33358-3', '12', 'g/L'],
  ['36916-5', '20', 'mg/L'],
  ['33944-0', '15', 'mg/L'],
  ['718-7', '130', 'g/L'],
  ['777-3', '200', '10*9/L'],
  ['751-8', '3', '10*9/L'],
  ['2160-0', '80', 'umol/L'],
  ['17861-6', '2.3', 'mmol/L'],
]

/** The rows of one visit's blood. */
export function visitRows(patientId: string, on: string, laboratory = 'North Laboratory'): Row[] {
  return BLOOD.map(([code, value, unit]) =>
    resultRow({ patient_id: patientId, collected_at: on, code, value, unit, laboratory, accession: `${patientId} ${on} ${code}` }),
  )
}

const course = (patientId: string, on: string, phase: string): Row => ({
  patient_id: patientId,
  on,
  event: 'diagnosis',
  phase,
  heavy_chain: 'G',
  light_chain: 'kappa',
})

/** When P1, P2 and P3 were seen: off treatment they come every 84 days, grace 21. */
export const VISITS: Readonly<Record<string, readonly string[]>> = {
  // Due 2026-03-26, 06-25 and 09-12: each on time.
  P1: ['2026-01-01', '2026-04-02', '2026-06-20', '2026-09-15'],
  // Due 2026-03-26: late by 46 days. Then due 2026-08-03: missed.
  P2: ['2026-01-01', '2026-05-11'],
  // MGUS: due once after 6 months, on 2026-07-01: on time.
  P3: ['2026-07-10'],
}

/** The files of a clinic of three. */
export const FILES = [
  csv('patients.csv', [
    patientRow({ patient_id: 'P1', clinician: 'Dr North', family_name: 'Quibble' }),
    patientRow({ patient_id: 'P2', clinician: 'Dr North' }),
    patientRow({ patient_id: 'P3', clinician: 'Dr South' }),
  ]),
  csv('course.csv', [course('P1', '2026-01-01', 'active'), course('P2', '2026-01-01', 'active'), course('P3', '2026-01-01', 'mgus')]),
  csv(
    'results.csv',
    Object.entries(VISITS).flatMap(([patientId, days]) => days.flatMap((on) => visitRows(patientId, on))),
  ),
]

export const WISH = { from: '2026-01-01', to: '2026-10-31', cutOff: null, whatIf: null } as const
