import { isWithdrawn, RESULT_STATUSES } from '../../results/index.ts'
import { quoted } from '../quoted.ts'
import type { RefusedRow } from '../reason.ts'
import type { RawRow } from '../row.ts'
import { problem } from '../sentences.ts'
import type { Message } from './messagesOf.ts'
import { observationRow } from './observationRow.ts'
import { type NamedPatient, patientOf } from './patientOf.ts'
import { partOf, receivedField, type Segment } from './segment.ts'

/** True for a message of results, ORU^R01. */
export function isResultMessage({ header }: Message): boolean {
  return partOf(header, 9, 1) === 'ORU' && partOf(header, 9, 2) === 'R01'
}

/** Why a message brings no results, in the words that follow "this message"; null where it brings some. */
function whyNotRead(message: Message): string | null {
  const { header, segments } = message
  if (!isResultMessage(message)) return `is of another type, ${quoted(receivedField(header, 9))}; results come as ORU^R01`
  const processing = partOf(header, 11).trim()
  if (processing === 'T' || processing === 'D') return `is for training or tests (MSH-11 is ${processing}), not about a patient`
  return segments.some(({ name }) => name === 'OBX') ? null : 'has no OBX, so it brings no result'
}

const isTakenBack = ({ fields }: RawRow): boolean => RESULT_STATUSES.some((status) => status === fields.status && isWithdrawn({ status }))

/**
 * The rows of one order. Several values of one code and status (lines of a text, two bands) belong together in a way nothing here can tell, so
 * none of them is taken alone.
 */
function orderRows(rows: readonly RawRow[]): RawRow[] {
  const contents = new Map<string, Set<string>>()
  const key = ({ fields }: RawRow) => JSON.stringify([fields.code, fields.status])
  for (const row of rows) {
    if (isTakenBack(row)) continue
    const known = contents.get(key(row)) ?? new Set()
    contents.set(key(row), known.add(JSON.stringify([row.fields.value, row.fields.unit])))
  }
  return rows.map((row) => {
    const isAlone = isTakenBack(row) || (contents.get(key(row))?.size ?? 0) < 2
    return isAlone ? row : { ...row, fields: { ...row.fields, unclear: `${row.fields.unclear ?? ''} repeated-code`.trim() } }
  })
}

/** The rows of a message: one for each OBX; one refused row, at its header, for a message that brings no results. */
export function messageRows(message: Message): RawRow[] {
  const { header, segments } = message
  const why = whyNotRead(message)
  if (why !== null) {
    const refusal = problem('message-not-read', { column: '', text: '', detail: why }) as RefusedRow
    return [{ kind: 'results', line: header.line, text: header.text, fields: {}, refusal }]
  }
  let [patient, order]: [NamedPatient | null, Segment | null] = [null, null]
  const orders: RawRow[][] = []
  for (const segment of segments) {
    if (segment.name === 'PID') patient = patientOf(segment)
    else if (segment.name === 'OBR') {
      order = segment
      orders.push([])
    } else if (segment.name === 'OBX' && patient !== null && order !== null) {
      orders.at(-1)?.push(observationRow(segment, { header, patient, order }))
    }
  }
  return orders.flatMap(orderRows)
}
