// Controls would act on a terminal, direction marks on the words around them: both are shown as escapes.
const UNSAFE = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]/gu
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]/
const SHOWN = 60

/** Text as received, in quotes, for a sentence: at most 60 characters, controls escaped, right-to-left text isolated. */
export function quoted(text: string): string {
  const characters = [...text.slice(0, SHOWN * 2)]
  const cut = characters.length > SHOWN ? `${characters.slice(0, SHOWN).join('')}...` : characters.join('')
  const safe = cut.replace(UNSAFE, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`)
  return RIGHT_TO_LEFT.test(safe) ? `"\u2068${safe}\u2069"` : `"${safe}"`
}
