import { createHmac } from 'node:crypto'

/** Digits and letters no two of which look alike: without 0 O Q, 1 I L, B (8), G (6), S (5), U (V) and Z (2). (ours) */
const ALPHABET = '23456789ACDEFHJKMNPRTVWXY'
const BASE = BigInt(ALPHABET.length)
const GROUP = 5
/** 25 signs, 15 places: 69 bits. */
const PLACES = 15

/** What stands for patients where nobody is to be named. */
export interface Pseudonyms {
  /** `7K3PA-9TXCM-4HRDE`, the same for every record that is read as one patient. */
  readonly of: (patientId: string) => string
}

/** How a pseudonym is written; `isPseudonym` reads capital letters only. */
const WRITTEN = new RegExp(`^[${ALPHABET}]{${GROUP}}(-[${ALPHABET}]{${GROUP}}){2}$`)

/** Whether a text is written as a pseudonym is; whose it is, if anybody's, only the key tells. */
export function isPseudonym(text: string): boolean {
  return WRITTEN.test(text)
}

// The first 128 bits suffice: that 25^15 does not divide 2^128 favours no pseudonym by more than 1 in 10^17.
function written(digest: Buffer): string {
  let rest = (digest.readBigUInt64BE(0) << 64n) | digest.readBigUInt64BE(8)
  let signs = ''
  for (let place = 0; place < PLACES; place++) {
    signs += ALPHABET[Number(rest % BASE)]
    rest /= BASE
  }
  return [0, 1, 2].map((group) => signs.slice(group * GROUP, (group + 1) * GROUP)).join('-')
}

/**
 * Pseudonyms under a key: HMAC-SHA-256 (RFC 2104, FIPS 198-1) of the patient number, so that nobody without the key can try numbers. `keptId` names the
 * record a patient is read as, so that joined records have one pseudonym. Pure.
 */
export function pseudonyms(key: Uint8Array, keptId: (patientId: string) => string = (patientId) => patientId): Pseudonyms {
  return { of: (patientId) => written(createHmac('sha256', key).update(keptId(patientId), 'utf8').digest()) }
}
