import type { RuleId } from './ruleId.ts'

/** What a rule is called where a person reads it; the identifier stands beside it where exactness matters. */
const TITLES: Readonly<Record<RuleId, string>> = {
  'mde-calcium': 'Myeloma-defining event: calcium',
  'mde-renal': 'Myeloma-defining event: kidney',
  'mde-anaemia': 'Myeloma-defining event: anaemia',
  'mde-bone': 'Myeloma-defining event: bone lesions',
  'mde-marrow': 'Myeloma-defining event: marrow plasma cells',
  'mde-light-chain': 'Myeloma-defining event: light-chain ratio',
  'mde-mri': 'Myeloma-defining event: focal lesions on MRI',
  'pd-serum': 'Progression by serum M-protein',
  'pd-urine': 'Progression by urine M-protein',
  'pd-light-chain': 'Progression by free light chains',
  'pd-marrow': 'Progression by marrow plasma cells',
  'pd-lesion': 'Progression by lesions on imaging',
  'pd-circulating': 'Progression by circulating plasma cells',
  'significant-relapse': 'Significant biochemical relapse',
  'relapse-from-cr': 'Relapse from complete response',
  'band-needs-typing': 'New band needs typing',
  'relapse-calcium': 'Clinical relapse: calcium',
  'relapse-haemoglobin': 'Clinical relapse: haemoglobin',
  'relapse-creatinine': 'Clinical relapse: creatinine',
  'light-chain-escape': 'Light-chain escape',
  'danger-calcium': 'Danger: high calcium',
  'danger-kidney': 'Danger: creatinine has risen',
  'danger-light-chain-kidney': 'Danger: light chains and the kidney',
  'danger-plasma-cells': 'Danger: circulating plasma cells',
  'danger-neutrophils': 'Danger: low neutrophils',
  'danger-platelets': 'Danger: low platelets',
  'danger-haemoglobin': 'Danger: low haemoglobin',
  'evolving-m-protein': 'Evolving: serum M-protein',
  'evolving-haemoglobin': 'Evolving: haemoglobin',
  'evolving-light-chain': 'Evolving: free light chains',
  'haemoglobin-fall': 'Haemoglobin below the usual',
  reclassify: 'Past the limits of MGUS',
  'risk-step': 'More risk factors',
  'projected-crossing': 'Projected to cross a threshold',
  'beyond-noise': 'Rise beyond noise',
  overdue: 'Test overdue',
  'due-in-grace': 'Test due, within its grace',
  'confirmation-overdue': 'Second sample has not come',
  'held-results': 'Results wait in the held queue',
  'no-course': 'No phase recorded',
  'no-baseline': 'No baseline for this line',
  'type-mismatch': 'Immunofixation and involved chain disagree',
  'reviewed-then-corrected': 'Reviewed, then corrected',
}

/** The title of a rule. */
export function ruleTitle(id: RuleId): string {
  return TITLES[id]
}
