import type { Finding } from './finding.ts'

type Told = Pick<Finding, 'rule' | 'window' | 'since' | 'facts'> & Partial<Pick<Finding, 'certainty' | 'cautions' | 'evidence'>>

/**
 * A gap in what is known of a patient: met, without any value to exceed a threshold. Facts name days, never a count of days up to today, so
 * that what is said stays true from day to day.
 */
export function gap(told: Told): Finding {
  return { state: 'met', certainty: 'certain', endedOn: null, cautions: [], evidence: [], excess: 1, organDamage: false, ...told }
}
