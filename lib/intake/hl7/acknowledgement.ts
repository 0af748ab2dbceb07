import type { FileReason } from '../reason.ts'
import { escaped } from './escaped.ts'
import { partOf, receivedField, type Segment } from './segment.ts'

/** HL7 table 0008, as far as one acknowledgement for each message needs it. */
export type AcknowledgementCode = 'AA' | 'AE' | 'AR'

/** Why a message was not accepted: a reason of `FILE_REASONS`, or that it could not be kept now. */
export type NotAccepted = FileReason | 'store-busy' | 'not-kept'

export interface Answer {
  readonly code: AcknowledgementCode
  /** One sentence or a count, for the sender. */
  readonly says: string
  /** Null for AA. */
  readonly reason: NotAccepted | null
}

/** HL7 table 0357, and the field of the header it is about where it is about one. */
const CONDITIONS: Readonly<Partial<Record<NotAccepted, readonly [code: number, words: string, field?: number]>>> = {
  'hl7-structure': [100, 'Segment sequence error'],
  'hl7-count': [100, 'Segment sequence error'],
  'hl7-truncated': [101, 'Required field missing'],
  'hl7-control-id': [101, 'Required field missing', 10],
  'not-utf-8': [102, 'Data type error'],
  'nul-byte': [102, 'Data type error'],
  'hl7-character-set': [103, 'Table value not found', 18],
  'hl7-no-results': [200, 'Unsupported message type', 9],
  'hl7-processing': [202, 'Unsupported processing id', 11],
  'hl7-version': [203, 'Unsupported version id', 12],
  'hl7-control-id-used': [205, 'Duplicate key identifier', 10],
  'store-busy': [206, 'Application record locked'],
}
const ANOTHER_EVENT = [201, 'Unsupported event code', 9] as const
const ANY_OTHER = [207, 'Application internal error', undefined] as const

// HL7 v2.5.1 lengths: MSA-3 80, ERR-8 250.
const [SHORT, LONG] = [80, 250]

function cut(text: string, most: number): string {
  const characters = [...text]
  return characters.length > most ? `${characters.slice(0, most - 3).join('')}...` : text
}

/** A time (UTC, ISO 8601 with Z) as HL7 writes it. */
function hl7Time(at: string): string {
  return `${at.replace(/[-:TZ]/g, '')}+0000`
}

/** Whether the sender wants to hear of this outcome. MSH-15 and MSH-16 both empty: always (HL7 v2.5.1, 2.9.2). */
export function wantsAcknowledgement(header: Segment, code: AcknowledgementCode): boolean {
  const wishes = [partOf(header, 15).trim(), partOf(header, 16).trim()].filter((wish) => wish !== '')
  // AL and anything unknown: a sender that waits for an answer must not wait in vain.
  const isWanted = (wish: string) => (wish === 'SU' ? code === 'AA' : wish === 'ER' ? code !== 'AA' : wish !== 'NE')
  return wishes.length === 0 || wishes.some(isWanted)
}

function errorSegment(header: Segment, { says, reason }: Answer & { readonly reason: NotAccepted }): string {
  const { context } = header.split
  const parts = (...texts: readonly string[]) => texts.map((text) => escaped(text, context)).join(context.componentSeparator)
  const isAnotherEvent = reason === 'hl7-no-results' && partOf(header, 9) === 'ORU'
  const [code, words, field] = isAnotherEvent ? ANOTHER_EVENT : (CONDITIONS[reason] ?? ANY_OTHER)
  const place = field === undefined ? '' : parts('MSH', '1', String(field))
  const fields = ['', place, parts(String(code), words, 'HL70357'), 'E', parts(reason, '', 'L'), '', '', escaped(cut(says, LONG), context)]
  return ['ERR', ...fields].join(context.fieldSeparator)
}

/**
 * The acknowledgement of a message (HL7 v2.5.1, 2.9.2, original mode), in the sender's own separators: sender and receiver change places, MSA-2 is the
 * control id as received. `own` is this message's control id (at most 20 characters) and time (UTC, ISO 8601).
 */
export function acknowledgement(header: Segment, answer: Answer, own: { readonly controlId: string; readonly at: string }): string {
  const { context } = header.split
  const received = (field: number): string => receivedField(header, field)
  const separator = context.fieldSeparator
  const trigger = received(9).split(context.repetitionSeparator)[0]?.split(context.componentSeparator)[1] ?? ''
  const type = trigger === '' ? 'ACK' : ['ACK', trigger, 'ACK'].join(context.componentSeparator)
  const { reason } = answer
  const body = [
    ['MSA', answer.code, received(10), escaped(cut(answer.says, SHORT), context)].join(separator),
    ...(reason === null ? [] : [errorSegment(header, { ...answer, reason })]),
  ]
  const parties = [received(5) || 'LOWMARK', received(6), received(3), received(4)]
  const fields = [...parties, hl7Time(own.at), '', type, own.controlId, received(11), received(12)]
  const isAscii = /^\p{ASCII}*$/u.test([...fields, ...body].join(''))
  const characters = isAscii ? [] : ['', '', '', '', '', 'UNICODE UTF-8']
  const [, marks = ''] = header.text.slice(3).split(separator)
  const first = [`MSH${separator}${marks}`, ...fields, ...characters].join(separator)
  return [first, ...body].map((segment) => `${segment}\r`).join('')
}
