import { words } from '../words.ts'

const TESTS: Readonly<Record<string, string>> = {
  'kappa-flc': 'kappa free light chain',
  'lambda-flc': 'lambda free light chain',
  'involved-flc': 'involved free light chain',
  dflc: 'dFLC',
  igg: 'IgG',
  iga: 'IgA',
  igm: 'IgM',
  igd: 'IgD',
  ige: 'IgE',
  ldh: 'LDH',
}

const MODELS: Readonly<Record<string, string>> = {
  mgus: 'MGUS',
  '20-2-20': '20/2/20',
  '20-2-20-cytogenetics': '20/2/20 with cytogenetics',
  'smouldering-points': 'smouldering points',
  iss: 'ISS',
  'r-iss': 'R-ISS',
  'high-risk-2025': 'high risk 2025',
}

/** An analyte or marker as a reader meets it. */
export function testName(analyte: string): string {
  return TESTS[analyte] ?? words(analyte)
}

/** A published risk model by its usual name. */
export function modelName(model: string): string {
  return MODELS[model] ?? words(model)
}
