import { field } from '../../intake/index.ts'
import type { HeldRow } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { typedText } from '../decisions/typedText.ts'
import { rawRowOf } from '../intake/releaseHeld.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { waitingRow } from './decideHeld.ts'
import { counted } from './settledSays.ts'

/** Whose a held row is, by one person's word. */
export interface PatientWish {
  readonly heldId: number
  readonly patientId: string
  readonly alike: boolean
  /** Whether the identifier as received means this patient for later files too. */
  readonly remember: boolean
  readonly reason: string
}

/** Reasons for which it is a question whose the row is. */
const WHOSE: readonly string[] = ['unknown-patient', 'birth-date-differs', 'sex-differs', 'patient-unclear']

/** Whether a patient can be chosen for a row: rows of patients say themselves who they are. */
export function isQuestionWhose({ kind, reason }: HeldRow): boolean {
  return kind !== 'patients' && WHOSE.includes(reason)
}

/** Why the identifier of a row cannot be remembered as a patient's; null where it can. */
export function identifierNotRemembered(held: HeldRow): string | null {
  if (held.reason !== 'unknown-patient') return 'A doubt about a person is settled for these rows only, never for later ones.'
  if (held.source === null) return 'Nobody said who sent the file, so nothing can be remembered of its source: this decides for these rows only.'
  return field(rawRowOf(held), 'patient_id') === '' ? 'The row names no identifier that could be remembered.' : null
}

/**
 * Proposes whose a held row is, with a reason. Nothing is filed before somebody else confirms it.
 */
export async function proposePatient(call: Call, wish: PatientWish): Promise<Outcome<{ sentence: string }>> {
  const { heldId, patientId, alike, remember } = wish
  const refused = await refusedUnlessMay(call, 'held.identify', `held row ${heldId}`)
  if (refused !== null) return refused
  const typed = typedText(wish.reason, 'The reason')
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  const found = waitingRow(call, heldId)
  if ('ok' in found) return found
  const { held } = found
  const { reader } = call.store
  if (!isQuestionWhose(held))
    return { ok: false, kind: 'invalid', reason: `Row ${heldId} waits for something else than whose it is (${held.reason}).` }
  const notRemembered = remember ? identifierNotRemembered(held) : null
  if (notRemembered !== null) return { ok: false, kind: 'invalid', reason: notRemembered }
  if (reader.patient(patientId) === null) return { ok: false, kind: 'not-found', reason: `No patient has the number "${patientId}".` }
  const ids = reader.heldAlike(heldId)
  const waiting = reader.waitingChoices().find((choice) => choice.heldId === heldId || (ids.includes(choice.heldId) && (alike || choice.alike)))
  if (waiting !== undefined) {
    return {
      ok: false,
      kind: 'invalid',
      reason: `For row ${waiting.heldId} a proposal of ${waiting.proposedBy} waits already. It is confirmed or declined first.`,
    }
  }
  const choice = { heldId, alike, remember, patientId, reason: typed.text, proposedBy: call.actor.name, proposedAt: call.now }
  await call.store.record(call, (tx) => {
    const choiceId = tx.insertChoice(choice)
    return { value: null, events: [{ action: 'held-patient-proposed', choiceId, heldId, patientId }] }
  })
  const rows = alike ? counted(ids.length, 'row') : `row ${heldId}`
  return { ok: true, value: { sentence: `Proposed for ${rows}. Somebody else has to confirm it before anything is filed.` } }
}
