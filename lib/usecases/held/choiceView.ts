import type { HeldChoice } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { isSamePerson } from './confirmPatient.ts'
import { comparedWith } from './identity.ts'
import { seesPatients } from './seesPatients.ts'
import type { ChoiceView } from './views.ts'

/** A choice that waits, as the one who looks may see it. */
export function choiceView(call: Call, choice: HeldChoice): ChoiceView {
  const { reader } = call.store
  const held = reader.heldRow(choice.heldId)
  const sees = seesPatients(call)
  const rows = choice.alike ? reader.heldAlikeCounts(choice.heldId).rows : 1
  const compared = sees && held !== null ? comparedWith(reader, held, choice.patientId) : null
  const whose = sees ? {} : { patientId: null, reason: null }
  return { ...choice, ...whose, rows, compared, mayConfirm: sees && !isSamePerson(choice.proposedBy, call.actor.name), mayDecline: sees }
}
