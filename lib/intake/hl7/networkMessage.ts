import { bytesInMemory } from '../byteSource.ts'
import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { quoted } from '../quoted.ts'
import type { OpenTable } from '../table.ts'
import { tableInMemory } from '../tableInMemory.ts'
import { textOfSource } from '../textOfSource.ts'
import { controlIdOf, headerFault } from './headerFault.ts'
import { messageRows } from './messageRows.ts'
import { eachMessage, type Message } from './messagesOf.ts'
import { physicalLines } from './physicalLines.ts'
import { fieldCount, partOf, type Segment, segmentOf } from './segment.ts'
import { separatorsOf } from './separators.ts'

/** What tells one message from every other: who sent it (MSH-3, MSH-4), and the sender's own control id (MSH-10). */
export interface MessageKey {
  readonly application: string
  readonly facility: string
  readonly controlId: string
}

/** A message as it came over the network, read as far as it can be. */
export interface NetworkMessage {
  /** Its MSH segment; null where that cannot be read, so that nobody can be answered. */
  readonly header: Segment | null
  readonly key: MessageKey | null
  /** As a file is named; it carries no patient. */
  readonly name: string
  /** Its rows, or why it is refused whole. */
  readonly table: OpenTable
}

const CALLED = 'The message'
const FIELDS_OF_HEADER = 12

/** The header at the very beginning of a message. Null where there is none, or none whose separators and text are certain. */
function headerOf(bytes: Uint8Array): Segment | null {
  const end = bytes.findIndex((byte) => byte === 0x0d || byte === 0x0a)
  const line = bytes.subarray(0, end === -1 ? bytes.length : end)
  if (line.includes(0)) return null
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(line)
    const separators = text.startsWith('MSH') ? separatorsOf(text) : null
    return separators === null ? null : segmentOf({ line: 1, text, isEnded: end !== -1 }, separators)
  } catch {
    return null
  }
}

/** All components of MSH-3 or MSH-4, the same whatever separators the message uses. */
function partyOf(header: Segment, field: number): string {
  const parts = [1, 2, 3].map((component) => partOf(header, field, component).trim())
  return parts.join('^').replace(/\^+$/, '')
}

function rowsOf(bytes: Uint8Array): OpenTable {
  const fault = textOfSource(bytesInMemory(bytes), CALLED)
  if (!fault.ok) return fault
  const text = new TextDecoder().decode(bytes)
  // The frame says where a message ends: many senders leave the last line end out, which in a file would say that it was cut off.
  const messages: Message[] = []
  const broken = eachMessage(physicalLines(/[\r\n]$/.test(text) ? text : `${text}\r`), CALLED, (message) => messages.push(message))
  if (broken !== null) return broken
  const [message] = messages
  if (message === undefined || messages.length > 1) {
    return refusedFile('hl7-structure', `${CALLED} is ${messages.length} messages in one frame; each needs a frame of its own.`)
  }
  return tableInMemory('results', messageRows(message))
}

function unreadable(bytes: Uint8Array): RefusedFile {
  const fault = textOfSource(bytesInMemory(bytes), CALLED)
  if (!fault.ok && fault.reason !== 'empty-file') return fault
  const why = bytes.length === 0 ? 'is empty' : 'does not begin with an MSH segment that names usable separators, such as MSH|^~\\&'
  return refusedFile('hl7-no-header', `${CALLED} ${why}; nobody can be answered.`)
}

/** Reads one message as it came, without its frame. Positions as in HL7 v2.5.1. Never throws. */
export function readNetworkMessage(bytes: Uint8Array): NetworkMessage {
  const header = headerOf(bytes)
  if (header === null) return { header, key: null, name: 'HL7 message without a readable header', table: unreadable(bytes) }
  const key = { application: partyOf(header, 3), facility: partyOf(header, 4), controlId: controlIdOf(header) }
  const sender = [key.application, key.facility].filter((party) => party !== '').map(quoted)
  const name = `HL7 message ${quoted(key.controlId)}${sender.length === 0 ? '' : ` of ${sender.join(', ')}`}`
  // A header that was cut off says so, rather than that one of its fields is empty.
  const fault = fieldCount(header) < FIELDS_OF_HEADER ? null : headerFault(header, CALLED)
  return { header, key, name, table: fault ?? rowsOf(bytes) }
}
