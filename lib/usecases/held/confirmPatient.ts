import { field } from '../../intake/index.ts'
import type { HeldChoice, HeldRow, NewMapping } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { rawRowOf } from '../intake/releaseHeld.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type HeldDecided, waitingRow } from './decideHeld.ts'
import { rememberMapping, toRemember } from './rememberMapping.ts'
import { settledSays } from './settledSays.ts'
import { settleRows } from './settleRows.ts'

const invalid = (reason: string) => ({ ok: false, kind: 'invalid', reason }) as const

/** Somebody else was first. */
class TooLate extends Error {}

/** Whether two names of accounts, or of a person at the console, are one person's. */
export function isSamePerson(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase()
}

/** The choice of a row that waits for a second person; the refusal where none does. */
export function waitingChoice(call: Call, heldId: number): { readonly choice: HeldChoice } | Extract<Outcome<never>, { ok: false }> {
  const choice = call.store.reader.waitingChoiceOf(heldId)
  return choice === null ? { ok: false, kind: 'not-found', reason: `For row ${heldId} no proposal waits.` } : { choice }
}

// Both people saw birth date and sex of the two before they said that it is this patient.
function decidedOf({ reason }: HeldRow, patientId: string): Record<string, string> {
  const settled = reason === 'birth-date-differs' || reason === 'sex-differs' ? { birth_date: '', sex: '' } : {}
  return { patient_id: patientId, ...settled }
}

function mappingOf(held: HeldRow, choice: HeldChoice, call: Call): NewMapping | null {
  if (!choice.remember || held.source === null) return null
  const { patientId: meaning, reason, proposedBy: madeBy, proposedAt: madeAt } = choice
  const received = field(rawRowOf(held), 'patient_id')
  return { source: held.source, kind: 'patient', received, ofCode: null, meaning, reason, madeBy, madeAt, confirmedBy: call.actor.name }
}

/**
 * Confirms, as a second person, whose a held row is, and files it with every row alike where that was proposed. The proposer cannot; a person at the
 * console is known by name.
 */
export async function confirmPatient(call: Call, { heldId }: { heldId: number }): Promise<Outcome<HeldDecided>> {
  const refused = await refusedUnlessMay(call, 'held.identify', `held row ${heldId}`)
  if (refused !== null) return refused
  const found = waitingRow(call, heldId)
  if ('ok' in found) return found
  const waiting = waitingChoice(call, heldId)
  if ('ok' in waiting) return waiting
  const { choice } = waiting
  if (isSamePerson(choice.proposedBy, call.actor.name)) {
    return invalid(`You proposed this yourself, ${call.actor.name}. Somebody else has to confirm whose the row is.`)
  }
  const { held } = found
  const mapping = mappingOf(held, choice, call)
  const wish = mapping === null ? null : toRemember(call.store.reader, mapping)
  if (wish?.ok === false) return invalid(wish.reason)
  const ids = choice.alike ? call.store.reader.heldAlike(heldId) : [heldId]
  const kept = call.store.record(call, (tx) => {
    if (!tx.decideChoice({ choiceId: choice.id, by: call.actor.name, at: call.now, declinedBecause: null })) throw new TooLate()
    const logged = { action: 'held-patient-confirmed', choiceId: choice.id, heldId, patientId: choice.patientId } as const
    if (wish === null) {
      for (const id of ids) tx.setDecided(id, decidedOf(held, choice.patientId))
      return { value: null, events: [logged] }
    }
    if (wish.inForce !== null) return { value: wish.inForce, events: [logged] }
    const made = rememberMapping(tx, wish.mapping)
    return { value: made.mappingId, events: [logged, made.event] }
  })
  const mappingId = await kept.catch((error: unknown) => {
    if (error instanceof TooLate) return 'too-late' as const
    throw error
  })
  if (mappingId === 'too-late') return invalid(`For row ${heldId} no proposal waits any more.`)
  const settled = await settleRows(call, ids, { kind: 'read-again', decided: null }, choice.reason)
  const forLater = mappingId === null ? '' : ` Mapping ${mappingId} is kept for later files of this source.`
  return { ok: true, value: { sentence: `${settledSays(settled, 'filed')}${forLater}`, done: settled.done, stay: settled.stay, mappingId } }
}
