import type { Reader } from '../../store/index.ts'

/** Whom a patient can be given to: clinicians of patients that are followed, and physicians with an account. By name; nothing typed freely becomes a clinician. */
export function cliniciansOf(reader: Reader): readonly string[] {
  const accounts = reader.accounts().filter(({ role, disabledAt }) => role === 'physician' && disabledAt === null)
  return [...new Set([...reader.listFacets().clinicians, ...accounts.map(({ name }) => name)])].toSorted((a, b) => a.localeCompare(b, 'en'))
}
