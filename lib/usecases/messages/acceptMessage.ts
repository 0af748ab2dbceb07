import { randomBytes } from 'node:crypto'
import { type Answer, acknowledgement, framed, type NetworkMessage, readNetworkMessage, wantsAcknowledgement } from '../../intake/index.ts'
import { StoreBusy } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { keepMessage } from './keepMessage.ts'

/** What the sender of a message hears. */
export interface MessageAnswer {
  /** The acknowledgement in its frame; null where none is sent. */
  readonly acknowledgement: Uint8Array | null
  /** True where the header could not be read, so that nobody can be answered: the connection ends. */
  readonly isUnreadable: boolean
  /** Why the message was not accepted, for whoever runs the listener: no word of it came over the network. Null where it was accepted. */
  readonly notAccepted: string | null
}

function whatFailed(error: unknown): string {
  if (!(error instanceof Error)) return 'not-kept'
  return 'code' in error ? `not-kept: ${error.name} ${String(error.code)}` : `not-kept: ${error.name}`
}

function failed(error: unknown): Answer {
  return error instanceof StoreBusy
    ? { code: 'AE', reason: 'store-busy', says: 'The database is busy; nothing of the message was kept. Send it again.' }
    : { code: 'AE', reason: 'not-kept', says: 'The message could not be kept; nothing of it was filed. Send it again.' }
}

function heard({ header }: NetworkMessage, answer: Answer, call: Call): Uint8Array | null {
  if (header === null || !wantsAcknowledgement(header, answer.code)) return null
  return framed(acknowledgement(header, answer, { controlId: `LM${randomBytes(8).toString('hex')}`, at: call.now }))
}

/**
 * Takes in one HL7 message that came over the network, without its frame. AA once it is committed, all of it in one transaction; AR where it is not a
 * message to take, its bytes kept with the reason; AE where nothing could be kept. Never rejects for what a message holds.
 */
export async function acceptMessage(call: Call, bytes: Uint8Array, source: string | null): Promise<Outcome<MessageAnswer>> {
  const refused = await refusedUnlessMay(call, 'intake.write', 'HL7 message')
  if (refused !== null) return refused
  const message = readNetworkMessage(bytes)
  const isUnreadable = message.header === null
  try {
    const answer = await keepMessage(message, bytes, source, call)
    return { ok: true, value: { acknowledgement: heard(message, answer, call), isUnreadable, notAccepted: answer.reason } }
  } catch (error) {
    const answer = failed(error)
    const why = answer.reason === 'store-busy' ? answer.reason : whatFailed(error)
    return { ok: true, value: { acknowledgement: heard(message, answer, call), isUnreadable, notAccepted: why } }
  }
}
