/** A number as a source with a decimal comma writes it: spelt with a point, in doubt, or none of its business. */
export type CommaNumber = { readonly text: string } | 'in-doubt' | 'not-concerned'

const LONGEST = 200
// One number with what stands around it: a comparator, a sign, words ("trace (<0,5)"). An exponent belongs to the number.
const AROUND = /^([^\d.,]*)([\d.,][\d.,\u0020\u00a0\u2009\u202f]*)([eE][+-]?\d{1,2})?([^\d.,]*)$/
const GROUPED = /^([1-9]\d{0,2})((?:\.\d{3})+|(?:[\u0020\u00a0\u2009\u202f]\d{3})+)(,\d+)?$/
const PLAIN = /^(\d*)(,\d+)?$/

function whole(number: string): string | null {
  const plain = PLAIN.exec(number)
  if (plain !== null) return `${plain[1]}${(plain[2] ?? '').replace(',', '.')}`
  const [, first, groups = '', fraction = ''] = GROUPED.exec(number) ?? []
  if (first === undefined) return null
  // One group behind a point may be thousands or a slip of the sign: nothing in the text tells.
  if (fraction === '' && groups.startsWith('.') && groups.length === 4) return null
  return `${first}${groups.replace(/\D/g, '')}${fraction.replace(',', '.')}`
}

/**
 * Reads the one number of a text under a decimal comma: `12,5` is 12.5, `1.234,5` and `1 234,5` are 1234.5, `<0,1` is <0.1. In doubt is a number with
 * a point that this convention has no place for (`12.5`, `1.234`). A text without a number, with several, or malformed otherwise is left as it is.
 */
export function commaNumber(text: string): CommaNumber {
  if (text.length > LONGEST || !/\d/.test(text)) return 'not-concerned'
  const [, before = '', body, exponent = '', behind = ''] = AROUND.exec(text) ?? []
  if (body === undefined) return 'not-concerned'
  const number = body.replace(/[\u0020\u00a0\u2009\u202f]+$/, '')
  const read = whole(number)
  if (read !== null) return { text: `${before}${read}${exponent}${body.slice(number.length)}${behind}` }
  return number.includes('.') ? 'in-doubt' : 'not-concerned'
}
