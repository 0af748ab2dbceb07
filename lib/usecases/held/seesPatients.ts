import { may } from '../../access/index.ts'
import type { Call } from '../call.ts'

/** Whether the caller may see what identifies a patient beside a held row. */
export function seesPatients({ actor }: Call): boolean {
  return may(actor.role === 'none' ? null : actor.role, 'held.identify').allowed
}
