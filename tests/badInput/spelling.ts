/** A decimal number as its text spells it: `digits` times ten to the power of `exponent`, with no 0 at the end of the digits. */
export interface Spelt {
  readonly digits: bigint
  readonly exponent: number
}

function normal(digits: bigint, exponent: number): Spelt {
  let [d, e] = [digits, exponent]
  if (d === 0n) return { digits: 0n, exponent: 0 }
  while (d % 10n === 0n) [d, e] = [d / 10n, e + 1]
  return { digits: d, exponent: e }
}

const isDigit = (character: string | undefined): boolean => character !== undefined && character >= '0' && character <= '9'

/** Reads ASCII digits with at most one point and an exponent, and nothing else. Written for these tests alone, character by character. */
export function spelling(text: string): Spelt | null {
  let at = 0
  let [digits, behindPoint, seen] = ['', 0, 0]
  const sign = text[at] === '-' ? -1n : 1n
  if (text[at] === '-' || text[at] === '+') at++
  for (; isDigit(text[at]); at++, seen++) digits += text[at]
  if (text[at] === '.') for (at++; isDigit(text[at]); at++, seen++, behindPoint++) digits += text[at]
  if (seen === 0) return null
  let power = ''
  if (text[at] === 'e' || text[at] === 'E') {
    at++
    if (text[at] === '-' || text[at] === '+') power += text[at++]
    const from = at
    for (; isDigit(text[at]); at++) power += text[at]
    if (at === from) return null
  }
  return at === text.length ? normal(sign * BigInt(digits), Number(power || '0') - behindPoint) : null
}

const COMPARATORS = ['less than', 'greater than', 'more than', '<=', '>=', '=<', '=>', '<', '>', '\u2264', '\u2265']

/** The number of a value as printed, behind its comparator where it has one. */
export function valueSpelling(text: string): { readonly comparator: string; readonly number: Spelt | null } {
  const bare = text.replace(/^[ \t\r\n]+|[ \t\r\n]+$/g, '')
  const comparator = COMPARATORS.find((one) => bare.toLowerCase().startsWith(one)) ?? ''
  return { comparator, number: spelling(bare.slice(comparator.length).replace(/^[ \t\u00a0]+/, '')) }
}

export function isSame(one: Spelt | null, other: Spelt | null): boolean {
  return one !== null && other !== null && one.digits === other.digits && one.exponent === other.exponent
}

/** Whether a text has, somewhere, a run of characters of numbers that spells this one; a hyphen may join two. */
export function isSpeltIn(text: string, number: Spelt | null): boolean {
  const runs = text.split(/[^\d.eE+-]+/)
  return runs.some((run) => [run, ...run.split('-')].some((part) => isSame(spelling(part), number)))
}
