import { createHash } from 'node:crypto'
import { DAMAGED, FIRST, JOINED } from './planted.ts'

const BIRTH_DATES = [
  /1931-07/,
  /1931\/0?7/,
  /0?7[/.]1931/,
  /19\. ?0?7\. ?1931/,
  /(0?7\/19|19\/0?7)\/1931/,
  /(19310719|07191931|19071931)/,
  /\b(19(th)?|July|Jul),? (of )?(July|Jul|19(th)?),? 1931/i,
  // The year alone; the digits of a digest are no year.
  /(?<![0-9a-z.])1931(?![0-9a-z.])/i,
]

const EXACT_AGE = [/\b9[456]( or 9[456])? years/]

/** A number in other writings: an unkeyed digest of it is as good as the number to whoever tries all numbers. */
function writings(text: string): RegExp[] {
  const bytes = Buffer.from(text)
  const digests = ['sha256', 'sha1', 'md5'].map((kind) => createHash(kind).update(text).digest('hex'))
  const inBase64 = [0, 1, 2].map((shift) =>
    Buffer.concat([Buffer.alloc(shift), bytes])
      .toString('base64')
      .slice(4, -4),
  )
  return [bytes.toString('hex'), ...digests, ...inBase64].map((form) => new RegExp(form.replaceAll(/[+/]/g, '[+/]'), 'i'))
}

/** What tells who somebody is: every planted name, number, file name, accession, typed or received text has "zqcanary" in it. */
export const IDENTITY: readonly RegExp[] = [/zqcanary/i, ...BIRTH_DATES, ...EXACT_AGE, ...[FIRST, DAMAGED, JOINED].flatMap(writings)]

/** The first place where one of these occurs, with what stands around it; null where none does. */
export function foundIn(text: string, canaries: readonly RegExp[]): string | null {
  for (const canary of canaries) {
    const at = text.search(canary)
    if (at !== -1) return `${canary}: ...${text.slice(Math.max(0, at - 100), at + 100)}...`
  }
  return null
}
