import { type Dimension, type Exclusion, NOT_RECORDED, OTHERS } from '../../../lib/followup/index.ts'
import { words } from '../words.ts'

/** By what a table tells the audit apart, as its heading says it. */
export const DIMENSION_WORDS: Readonly<Record<Dimension, string>> = {
  group: 'Test group',
  month: 'Month of the due day',
  phase: 'Phase',
  care: 'Care',
  risk: 'Risk',
  clinician: 'Clinician',
  laboratory: 'Laboratory',
}

export const EXCLUSION_WORDS: Readonly<Record<Exclusion, string>> = {
  died: 'died before the grace had ended',
  transferred: 'transferred before it had ended',
  discharged: 'discharged before it had ended',
  'plan-not-in-force': 'plan not in force on the due day',
}

/** A row of a table by name. What people and laboratories are called is left as it is. */
export function rowName(by: Dimension, key: string): string {
  if (key === OTHERS) return 'Others'
  return by === 'clinician' || by === 'laboratory' || by === 'month' || key === NOT_RECORDED ? key : words(key)
}
