import type { Analyte } from '../results/index.ts'
import type { Bridge } from '../units/index.ts'

/** The unit an analyte is kept in, and the step between mass and amount of substance where it has one. Null: a text without unit. */
export interface AnalyteUnit {
  readonly kept: string
  readonly bridge: Bridge | null
}

const plain = (kept: string): AnalyteUnit => ({ kept, bridge: null })

const UNIT_OF: Readonly<Record<Analyte, AnalyteUnit | null>> = {
  'serum-m-protein': plain('g/L'),
  'urine-m-protein': plain('mg/24 h'),
  'kappa-flc': plain('mg/L'),
  'lambda-flc': plain('mg/L'),
  'flc-ratio': plain('1'),
  igg: plain('g/L'),
  iga: plain('g/L'),
  igm: plain('g/L'),
  igd: plain('mg/L'),
  ige: plain('[IU]/mL'),
  haemoglobin: { kept: 'g/L', bridge: { from: 'mmol/L', factor: '16.114' } },
  'white-cells': plain('10*9/L'),
  neutrophils: plain('10*9/L'),
  platelets: plain('10*9/L'),
  calcium: { kept: 'mmol/L', bridge: { from: 'mg/dL', factor: '0.2495' } },
  'ionised-calcium': { kept: 'mmol/L', bridge: { from: 'mg/dL', factor: '0.2495' } },
  albumin: plain('g/L'),
  'total-protein': plain('g/L'),
  creatinine: { kept: 'umol/L', bridge: { from: 'mg/dL', factor: '88.4' } },
  'b2-microglobulin': plain('mg/L'),
  ldh: plain('U/L'),
  'alkaline-phosphatase': plain('U/L'),
  'marrow-plasma-cells': plain('%'),
  'circulating-plasma-cells': plain('%'),
  'serum-immunofixation': null,
  'urine-immunofixation': null,
}

/** The unit an analyte is kept in (UCUM; `mg/24 h` for the day's urine), null for an immunofixation. */
export function analyteUnit(analyte: Analyte): AnalyteUnit | null {
  return UNIT_OF[analyte]
}
