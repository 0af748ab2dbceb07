import type { Analyte } from '../results/index.ts'

/**
 * LOINC codes and the analyte each names, and codes that look like one of them and must never map.
 * This material contains content from LOINC (https://loinc.org), copyright Regenstrief Institute, Inc. and the LOINC Committee, available at no
 * cost under the licence at https://loinc.org/license.
 */
const ANALYTE_OF_CODE = new Map<string, Analyte>([
  ['33358-3', 'serum-m-protein'],
  ['42482-0', 'urine-m-protein'], // code from memory
  ['36916-5', 'kappa-flc'],
  ['33944-0', 'lambda-flc'],
  ['48378-4', 'flc-ratio'],
  ['2465-3', 'igg'],
  ['2458-8', 'iga'],
  ['2472-9', 'igm'],
  ['2460-4', 'igd'],
  ['19113-0', 'ige'],
  ['718-7', 'haemoglobin'],
  ['6690-2', 'white-cells'],
  ['26464-8', 'white-cells'],
  ['751-8', 'neutrophils'],
  ['753-4', 'neutrophils'],
  ['777-3', 'platelets'],
  ['17861-6', 'calcium'],
  ['2000-8', 'calcium'],
  ['1994-3', 'ionised-calcium'],
  ['1995-0', 'ionised-calcium'],
  ['1751-7', 'albumin'],
  ['2885-2', 'total-protein'],
  ['2160-0', 'creatinine'],
  ['14682-9', 'creatinine'],
  ['1952-1', 'b2-microglobulin'],
  ['2532-0', 'ldh'],
  ['14804-9', 'ldh'],
  ['6768-6', 'alkaline-phosphatase'],
  ['11118-7', 'marrow-plasma-cells'], // code from memory
  ['13047-6', 'circulating-plasma-cells'],
  ['25700-6', 'serum-immunofixation'],
  ['13440-1', 'urine-immunofixation'], // code from memory
])

/** Codes that must never map, each with what it is instead. */
const NEVER = new Map<string, string>([
  ['2464-6', 'immunoglobulin G in cerebrospinal fluid, not in serum'],
  ['2457-0', 'immunoglobulin A in cerebrospinal fluid, not in serum'],
  ['2471-1', 'immunoglobulin M in cerebrospinal fluid, not in serum'],
  ['11050-2', 'total kappa light chains, not free ones'],
  ['11051-0', 'total lambda light chains, not free ones'],
  ['6788-4', 'total light chains, not free ones'],
  ['40844-3', 'a deprecated ratio of light chains'],
])

/** The analyte a LOINC code names; null for a code that is unknown or must not map. */
export function analyteOfCode(code: string): Analyte | null {
  return ANALYTE_OF_CODE.get(code) ?? null
}

/** What a code that must never map is; null for every other code. */
export function whyNeverMapped(code: string): string | null {
  return NEVER.get(code) ?? null
}

/** Every code that maps, with its analyte, in the order of the specification. */
export function loincCodes(): readonly (readonly [string, Analyte])[] {
  return [...ANALYTE_OF_CODE]
}
