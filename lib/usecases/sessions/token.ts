import { createHash, randomBytes, randomInt } from 'node:crypto'

/** SHA-256 (hexadecimal) of a secret that is random itself, and so needs no salt and no slow hash. */
export function digestOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex')
}

/** 256 bits by chance, for what a browser holds. */
export function randomToken(): string {
  return randomBytes(32).toString('base64url')
}

// Letters and digits that cannot be taken for each other when read aloud or copied by hand.
const ALPHABET = 'ABCDEFGHJKMNPQRSTUVWXYZ23456789'
const GROUPS = 7

/** A one-time code of 28 characters, 138 bits by chance, in groups of four: enough to be kept as a plain SHA-256 (OWASP ASVS 5.0, 6.5.2 and 11.5.1). */
export function randomCode(): string {
  const letters = Array.from({ length: GROUPS * 4 }, () => ALPHABET[randomInt(ALPHABET.length)])
  return Array.from({ length: GROUPS }, (_, group) => letters.slice(group * 4, group * 4 + 4).join('')).join('-')
}

/** A typed code as it was made: blanks and hyphens do not count, nor does the case. */
export function plainCode(typed: string): string {
  return typed.replace(/[\s-]/g, '').toUpperCase()
}
