/** Without a second factor, and with one (NIST SP 800-63B-4, 3.1.1.2). */
export const LEAST_CHARACTERS = { alone: 15, 'with-second-factor': 8 } as const
/** What else has to be shown at sign-in. */
export type PasswordUse = keyof typeof LEAST_CHARACTERS
/** Far above the 64 that must be accepted (same source); it bounds the work of hashing. */
const MOST_CHARACTERS = 1000
/** What has to be left of a password once what anybody would guess is taken out of it. Ours. */
const LEAST_UNGUESSED = { alone: 8, 'with-second-factor': 4 } as const

const PRODUCT = 'lowmark'

/** Characters of a text as a person counts them for a password: code points of its normal form NFKC (NIST SP 800-63B-4, 3.1.1.2). */
function characters(text: string): string[] {
  return [...text.normalize('NFKC')]
}

/** The text without every piece in which each character is the one before, its successor or its predecessor: "aaaa", "1234", "fedc". */
function withoutRuns(letters: readonly string[]): string[] {
  const steps = letters.map((letter, index) => (index === 0 ? Number.NaN : (letter.codePointAt(0) ?? 0) - (letters[index - 1]?.codePointAt(0) ?? 0)))
  return letters.filter((_, index) => {
    const step = steps[index] ?? Number.NaN
    return !(Math.abs(step) <= 1 && step === (steps[index - 1] ?? step))
  })
}

/** The shortest piece of which the text is a repetition ("abcabcab" -> "abc"); the text itself where it is none. */
function repeatedPiece(letters: readonly string[]): readonly string[] {
  const length = letters.findIndex((_, at) => at > 0 && letters.every((letter, index) => index < at || letter === letters[index - at]))
  return length === -1 ? letters : letters.slice(0, length)
}

function without(text: string, word: string): string {
  return word.length < 3 ? text : text.replaceAll(word.toLowerCase(), '')
}

/** Has the password too few characters to stand alone, without a second factor? */
export function isShortPassword(password: string): boolean {
  return characters(password).length < LEAST_CHARACTERS.alone
}

/**
 * Why this password cannot be taken, in a sentence; null when it can. No rules of composition: length, and a small blocklist (the account's name,
 * the product's name, repeated and consecutive characters), each with its reason (NIST SP 800-63B-4, 3.1.1.2).
 */
export function passwordProblem(password: string, accountName: string, use: PasswordUse = 'alone'): string | null {
  const letters = characters(password)
  const least = LEAST_CHARACTERS[use]
  const leastUnguessed = LEAST_UNGUESSED[use]
  if (letters.length < least) return `The password has ${letters.length} characters; it needs at least ${least}.`
  if (letters.length > MOST_CHARACTERS) return `The password has ${letters.length} characters; at most ${MOST_CHARACTERS} are taken.`
  if (repeatedPiece(letters).length < leastUnguessed)
    return 'The password repeats a short piece over and over, which is among the first things tried. Choose another one.'
  if (withoutRuns(letters).length < leastUnguessed)
    return 'The password is mostly repeated or consecutive characters, which are among the first things tried. Choose another one.'
  const unguessed = without(without(letters.join('').toLowerCase(), accountName.normalize('NFKC')), PRODUCT)
  if ([...unguessed].length < leastUnguessed)
    return "The password is mostly the account's name or the name of this program, which are among the first things tried. Choose another one."
  return null
}
