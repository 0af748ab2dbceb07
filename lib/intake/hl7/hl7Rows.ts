import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { quoted } from '../quoted.ts'
import type { RawRow } from '../row.ts'
import { messageName } from './messageFault.ts'
import { isResultMessage, messageRows } from './messageRows.ts'
import { messagesOf } from './messagesOf.ts'
import { receivedField } from './segment.ts'

/**
 * Reads a text that is HL7 v2 (`isHl7`) into rows of results: messages ORU^R01, one or several or in batches. Positions as in HL7 v2.5.1.
 * The whole file is refused where it is cut off or its structure is broken, and where none of its messages brings results. Never throws.
 */
export function hl7Rows(text: string, fileName: string): readonly RawRow[] | RefusedFile {
  const messages = messagesOf(text, fileName)
  if ('ok' in messages) return messages
  if (messages.some(isResultMessage)) return messages.flatMap(messageRows)
  const [first] = messages
  const found = first === undefined ? 'it has no message' : `${messageName(first.header, 1)} is ${quoted(receivedField(first.header, 9))}`
  return refusedFile('hl7-no-results', `${fileName} has no HL7 message of results (ORU^R01): ${found}.`)
}
