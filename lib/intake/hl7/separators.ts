import { Hl7Context } from '@medplum/core'

const HEADERS: ReadonlySet<string> = new Set(['MSH', 'FHS', 'BHS'])

/** True for the segments that name their own separators. */
export function namesSeparators(name: string): boolean {
  return HEADERS.has(name)
}

/**
 * The separators a header segment names: the field separator behind its name, then component, repetition, escape and subcomponent (a fifth character,
 * of truncation, is taken and not used). Null where one is missing, stands twice, or is a letter, digit, blank or quotation mark.
 */
export function separatorsOf(headerText: string): Hl7Context | null {
  const field = headerText.charAt(3)
  if (field === '') return null
  const end = headerText.indexOf(field, 4)
  const named = headerText.slice(4, end === -1 ? headerText.length : end)
  const all = [field, ...named]
  if (all.length < 5 || all.length > 6 || new Set(all).size !== all.length) return null
  if (all.some((mark) => /[\p{L}\p{N}\s"]/u.test(mark))) return null
  const [, component, repetition, escapes, subcomponent] = all
  // The library's own reading of a header takes whatever stands in the fifth to eighth place, the field separator too.
  return new Hl7Context('\r', field, component, repetition, escapes, subcomponent)
}
