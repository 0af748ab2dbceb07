/** The tests a sheet can tell of, in the order it prints them. */
export const SHEET_TESTS = [
  'serum-m-protein',
  'urine-m-protein',
  'involved-light-chain',
  'kappa-light-chain',
  'lambda-light-chain',
  'immunoglobulin',
  'marrow',
  'haemoglobin',
  'neutrophils',
  'platelets',
  'creatinine',
  'calcium',
] as const
export type SheetTest = (typeof SHEET_TESTS)[number]
