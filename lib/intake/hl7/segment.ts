import { type Hl7Context, type Hl7Field, Hl7Segment } from '@medplum/core'
import { type Decoded, decoded } from './escapes.ts'
import type { PhysicalLine } from './physicalLines.ts'

/** A segment as received, split at the separators of its message. */
export interface Segment {
  readonly name: string
  readonly line: number
  readonly text: string
  readonly split: Hl7Segment
}

/** Splits a line into a segment; null where it begins with no segment name (HL7 v2.5.1: a capital letter and two capitals or digits). */
export function segmentOf({ line, text }: PhysicalLine, context: Hl7Context): Segment | null {
  const name = text.slice(0, 3)
  if (!/^[A-Z][A-Z\d]{2}$/.test(name) || (text.length > 3 && text.charAt(3) !== context.fieldSeparator)) return null
  return { name, line, text, split: Hl7Segment.parse(text, context) }
}

/** How many fields stand behind the name, empty ones too. */
export function fieldCount({ name, split }: Segment): number {
  return split.fields.length - (name === 'MSH' ? 0 : 1)
}

/** A field by the number the standard gives it, undecoded; undefined behind the last one. */
export function fieldOf({ name, split }: Segment, number: number): Hl7Field | undefined {
  // FHS and BHS count their separator as the first field, as MSH does; the library knows that of MSH only.
  return name === 'FHS' || name === 'BHS' ? split.fields[number - 1] : split.getField(number)
}

/** A field word for word, with its separators and escapes; empty where there is none. */
export function receivedField(segment: Segment, number: number): string {
  return fieldOf(segment, number)?.toString() ?? ''
}

/** A text between separators, decoded. Two quotation marks alone are HL7's "no value" and read as empty. */
export function leaf(text: string, { split }: Segment): Decoded {
  return text === '""' ? { text: '', isKnown: true } : decoded(text, split.context)
}

/** A component of a field, decoded; empty where there is none. */
export function partOf(segment: Segment, number: number, component = 1, repetition = 0): string {
  return leaf(fieldOf(segment, number)?.components[repetition]?.[component - 1] ?? '', segment).text
}
