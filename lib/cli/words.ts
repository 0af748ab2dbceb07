import { type ParseArgsConfig, parseArgs } from 'node:util'

/** The words of a command were wrong: exit status 2, nothing done. */
export class WrongWords extends Error {}

type Options = NonNullable<ParseArgsConfig['options']>
export type Values = Readonly<Record<string, string | boolean | readonly string[] | undefined>>

/** Reads the words after a command. Throws WrongWords with a sentence where they do not fit. */
export function readWords(
  args: readonly string[],
  options: Options,
  positionals: { min: number; max: number; called: string },
): { values: Values; words: string[] } {
  try {
    const read = parseArgs({ args: [...args], options, allowPositionals: true, strict: true })
    if (read.positionals.length < positionals.min) throw new WrongWords(`${positionals.called} is missing.`)
    if (read.positionals.length > positionals.max) throw new WrongWords(`"${read.positionals[positionals.max]}" is one word too many.`)
    return { values: read.values as Values, words: read.positionals }
  } catch (error) {
    if (error instanceof WrongWords) throw error
    throw new WrongWords(error instanceof Error ? error.message : String(error))
  }
}

/** An option's text, or null where it was not given. */
export function textOf(values: Values, name: string): string | null {
  const value = values[name]
  return typeof value === 'string' ? value : null
}

/** The texts of an option that may be given several times. */
export function textsOf(values: Values, name: string): readonly string[] {
  const value = values[name]
  return typeof value === 'object' ? value : []
}

/** A whole number of at least `least`. Throws WrongWords for anything else. */
export function wholeNumberOf(values: Values, name: string, otherwise: number, least = 1): number {
  const text = textOf(values, name)
  if (text === null) return otherwise
  if (!/^\d{1,9}$/.test(text) || Number(text) < least) throw new WrongWords(`--${name} takes a whole number of at least ${least}, not "${text}".`)
  return Number(text)
}

/** The reason a person gives. Throws WrongWords where there is none. */
export function reasonOf(values: Values): string {
  const reason = textOf(values, 'reason')?.trim() ?? ''
  if (reason === '') throw new WrongWords('--reason TEXT is missing: it says why, and is kept.')
  return reason
}
