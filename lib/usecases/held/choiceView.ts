import { may } from '../../access/index.ts'
import type { HeldChoice } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { isSamePerson } from './confirmPatient.ts'
import { comparedWith } from './identity.ts'
import type { ChoiceView } from './views.ts'

/** Whether the caller may see what identifies a patient beside a held row. */
export function seesPatients({ actor }: Call): boolean {
  return may(actor.role === 'none' ? null : actor.role, 'held.identify').allowed
}

/** A choice that waits, as the one who looks may see it. */
export function choiceView(call: Call, choice: HeldChoice): ChoiceView {
  const { reader } = call.store
  const held = reader.heldRow(choice.heldId)
  const sees = seesPatients(call)
  const rows = choice.alike ? reader.heldAlikeCounts(choice.heldId).rows : 1
  const compared = sees && held !== null ? comparedWith(reader, held, choice.patientId) : null
  return { ...choice, rows, compared, mayConfirm: sees && !isSamePerson(choice.proposedBy, call.actor.name), mayDecline: sees }
}
