import type { Analyte } from './analyte.ts'

/** Analytes that are written otherwise than their word in the code. */
const WRITTEN: Partial<Record<Analyte, string>> = {
  'serum-m-protein': 'serum M-protein',
  'urine-m-protein': 'urine M-protein',
  'kappa-flc': 'kappa free light chain',
  'lambda-flc': 'lambda free light chain',
  'flc-ratio': 'light-chain ratio',
  igg: 'IgG',
  iga: 'IgA',
  igm: 'IgM',
  igd: 'IgD',
  ige: 'IgE',
  ldh: 'LDH',
}

/** An analyte as a sentence names it: `serum M-protein`. */
export function analyteWords(analyte: Analyte): string {
  return WRITTEN[analyte] ?? analyte.replaceAll('-', ' ')
}
