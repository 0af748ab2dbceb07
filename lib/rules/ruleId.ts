/** Every rule of clinical.md 3.1, 3.2, 3.3 and 3.5. Drift (3.4) joins this list in its own room of files. */
export const RULE_IDS = [
  'mde-calcium', 'mde-renal', 'mde-anaemia', 'mde-bone', 'mde-marrow', 'mde-light-chain', 'mde-mri',
  'pd-serum', 'pd-urine', 'pd-light-chain', 'pd-marrow', 'pd-lesion', 'pd-circulating',
  'significant-relapse', 'relapse-from-cr', 'band-needs-typing', 'relapse-calcium', 'relapse-haemoglobin', 'relapse-creatinine', 'light-chain-escape',
  'danger-calcium', 'danger-kidney', 'danger-light-chain-kidney', 'danger-plasma-cells', 'danger-neutrophils', 'danger-platelets', 'danger-haemoglobin',
  'overdue', 'due-in-grace', 'confirmation-overdue', 'held-results', 'no-course', 'no-baseline', 'type-mismatch',
] as const
export type RuleId = (typeof RULE_IDS)[number]
