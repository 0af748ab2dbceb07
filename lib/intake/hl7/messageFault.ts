import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { quoted } from '../quoted.ts'
import { fieldCount, fieldOf, partOf, receivedField, type Segment } from './segment.ts'

/** Fields a segment has at least: up to the last one the standard requires and this program reads. */
const LEAST = new Map([
  ['MSH', 12],
  ['PID', 3],
  ['OBR', 4],
  ['OBX', 11],
])

/** Names of UTF-8 and of its part ASCII in HL7 table 0211; empty is ASCII. */
const CHARACTER_SETS: ReadonlySet<string> = new Set(['', 'ASCII', 'UNICODE UTF-8', 'UTF-8'])

/** A message as a sentence names it: its place in the file and its control id (MSH-10). */
export function messageName(header: Segment, ordinal: number): string {
  return `message ${ordinal} (control id ${quoted(partOf(header, 10))}, MSH on line ${header.line})`
}

/** True where MSH-18 names no other characters than those of UTF-8. */
export function namesOurCharacters(header: Segment): boolean {
  const sets = fieldOf(header, 18)?.components.map(([name]) => (name ?? '').trim().toUpperCase()) ?? []
  return sets.every((name) => CHARACTER_SETS.has(name))
}

/** What a message lacks, or carries that cannot be read whole; the first fault from its top, null for a sound one. */
export function messageFault(
  { header, segments }: { readonly header: Segment; readonly segments: readonly Segment[] },
  ordinal: number,
  fileName: string,
): RefusedFile | null {
  const named = messageName(header, ordinal)
  const found = (segment: Segment): string => `${segment.name} on line ${segment.line} of ${named}`
  const seen = new Set<string>()
  for (const segment of [header, ...segments]) {
    const least = LEAST.get(segment.name) ?? 0
    if (fieldCount(segment) < least) {
      const sentence = `${fileName} is cut off: ${found(segment)} has ${fieldCount(segment)} fields and needs at least ${least}.`
      return refusedFile('hl7-truncated', sentence)
    }
    if (segment.name === 'ADD' || segment.name === 'DSC' || (segment.name === 'MSH' && partOf(segment, 14) !== '')) {
      return refusedFile('hl7-structure', `${fileName} has a message in pieces, ${found(segment)}; it needs to be sent whole.`)
    }
    if (segment.name === 'PID') seen.delete('OBR')
    const lacking = segment.name !== 'OBX' ? null : (['PID', 'OBR'].find((name) => !seen.has(name)) ?? null)
    if (partOf(header, 9) === 'ORU' && lacking !== null) {
      return refusedFile('hl7-structure', `${fileName} has ${found(segment)} without ${lacking} before it; nobody can tell what it belongs to.`)
    }
    seen.add(segment.name)
  }
  if (namesOurCharacters(header)) return null
  const sentence = `${fileName} says in ${named} that its characters are ${quoted(receivedField(header, 18))} (MSH-18); it needs to be UTF-8.`
  return refusedFile('hl7-character-set', sentence)
}
