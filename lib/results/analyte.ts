/** What Lowmark follows. The words are those of clinical.md 1.3 and of the JSON. */
export const ANALYTES = [
  'serum-m-protein', 'urine-m-protein', 'kappa-flc', 'lambda-flc', 'flc-ratio', 'igg', 'iga', 'igm', 'igd', 'ige',
  'haemoglobin', 'white-cells', 'neutrophils', 'platelets', 'calcium', 'ionised-calcium', 'albumin', 'total-protein',
  'creatinine', 'b2-microglobulin', 'ldh', 'alkaline-phosphatase', 'marrow-plasma-cells', 'circulating-plasma-cells',
  'serum-immunofixation', 'urine-immunofixation',
] as const

export type Analyte = (typeof ANALYTES)[number]
