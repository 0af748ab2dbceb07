import { EMERGENCY_MS } from '../../access/index.ts'
import { traceCourse } from '../../course/index.ts'
import type { NewEmergency } from '../../store/index.ts'
import { canonicalSha256 } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { clinicTime } from '../clinicDay.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { typedText } from '../decisions/typedText.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { isClosed } from './closed.ts'
import { runningViewOf } from './runningView.ts'

const SHORTEST_REASON = 10

export interface EmergencyWish {
  /** The number, or what stands for the patient in the address of the refused page. */
  readonly patientId: string
  /** 10 to 500 characters. */
  readonly reason: string
}

export interface OpenedEmergency {
  readonly emergencyId: number
  /** The record that is kept, whose page opens. */
  readonly patientId: string
  /** What stands for the patient in the address of that page. */
  readonly address: string
  /** What the clinic's clocks show when it ends. */
  readonly until: string
}

// What was typed may be a name by mistake: it is neither said again nor logged.
const NOBODY = 'No record can be opened by what was typed. Check the number.'

function newView(call: Call, patientId: string, reason: string): NewEmergency {
  const { actor, now } = call
  const untilAt = new Date(Date.parse(now) + EMERGENCY_MS).toISOString()
  return { openedBy: actor.name, sessionHash: actor.sessionHash ?? '', patientId, reason, fromAt: now, untilAt }
}

/**
 * Opens a closed record to the physician who asks, in this session, for 60 minutes and for reading only. The quality team is shown it with the reason.
 * Refused for a patient who is followed, whose page needs no such view, and for a number nobody has, which is logged without it.
 */
export async function openEmergency(call: Call, wish: EmergencyWish): Promise<Outcome<OpenedEmergency>> {
  const refused = await refusedUnlessMay(call, 'emergency.open', 'a closed record')
  if (refused !== null) return refused
  if (call.actor.sessionHash === null)
    return { ok: false, kind: 'invalid', reason: 'An emergency view belongs to a session in a browser; the command line opens every record.' }
  const typed = typedText(wish.reason, 'The reason', SHORTEST_REASON)
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  const outcome = await unlessRefused(() =>
    call.store.record(call, (tx) => {
      const meant = wish.patientId.trim()
      const history = tx.loadHistory(tx.patientIdAt(meant) ?? meant)?.history ?? refuse('not-found', NOBODY)
      if (!isClosed(traceCourse(history, call.today)))
        refuse('invalid', 'This patient is followed: the page opens from the review list, without an emergency view.')
      const patientId = history.patient.id
      const running = runningViewOf(tx, call, patientId)
      if (running !== null) refuse('invalid', `This record is open to you already, until ${clinicTime(new Date(running.untilAt))}.`)
      const view = newView(call, patientId, typed.text)
      const emergencyId = tx.insertEmergency(view)
      const after = canonicalSha256({ id: emergencyId, ...view })
      return {
        value: { emergencyId, patientId, address: tx.patientAddress(patientId), until: clinicTime(new Date(view.untilAt)) },
        events: [{ action: 'emergency-opened', emergencyId, patientId, until: view.untilAt, after }],
      }
    }),
  )
  if (!outcome.ok && outcome.kind === 'not-found') {
    const event = { action: 'access-refused', permission: 'emergency.open', object: 'a number nobody has' } as const
    await call.store.record(call, () => ({ value: null, events: [event] }))
  }
  return outcome
}
