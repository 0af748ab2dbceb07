import type { Hl7Context } from '@medplum/core'

/** A text with everything that would be read as a separator written as its escape (HL7 v2.5.1 chapter 2.7), so that `decoded` gives the text back. */
export function escaped(text: string, context: Hl7Context): string {
  const mark = context.escapeCharacter
  const names = new Map([
    [mark, 'E'],
    [context.fieldSeparator, 'F'],
    [context.componentSeparator, 'S'],
    [context.subcomponentSeparator, 'T'],
    [context.repetitionSeparator, 'R'],
    ['\r', 'X0D'],
    ['\n', '.br'],
  ])
  return [...text].map((character) => (names.has(character) ? `${mark}${names.get(character)}${mark}` : character)).join('')
}
