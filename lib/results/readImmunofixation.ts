import type { Band, HeavyChain, Immunofixation, LightChain } from './immunofixation.ts'
import { plainImmunofixation } from './plainImmunofixation.ts'

const SEEN = '(detected|detectable|seen|visible|identified|present|found|observed|demonstrated|demonstrable|apparent|evident)'
const THING =
  '((monoclonal|m|abnormal)( (immunoglobulin|protein|band|component|gammopathy|paraprotein|spike|peak)s?)*( or free( lightchain)?)?|paraproteins?( bands?)?)'
const THINGS = `${THING}( (or|and) ${THING})*`

/** Nothing was found at all. "No Bence Jones protein" alone is not among them: it does not say that the whole protein is gone. */
const NEGATIVE = new RegExp(
  `^(polyclonal (pattern|increase|background) )?(neg(ative)?( result)?( for( an?| any)? ${THINGS})?|none( ${SEEN})?|not detected|absent|normal( pattern)?|` +
    `no( evidence of| sign of)?( an?| any)? ${THINGS}( (is |are )?${SEEN})?|${THINGS} ((is |are )?not ${SEEN}|absent|negative|none( ${SEEN})?))( in( the)? (serum|urine))?$`,
)
const UNSURE =
  /\b(cannot|can not|can't|unable to|could not|not possible to) (be )?(exclude|rule out|ruled out)|\bnot (be )?(excluded|ruled out)\b|^(equivocal|indeterminate|inconclusive)$/
const ALSO_CERTAIN = /\b(present|detected|positive|identified|seen)\b/

/** Words that stand around a band and change nothing of what it is. Any word outside this list leaves the text unread. */
const AROUND = new Set(
  (
    'positive pos for a an the and with plus of is are there this monoclonal m protein proteins paraprotein paraproteins component components gammopathy ' +
    'immunoglobulin band bands spike peak presence present detected detectable seen visible identified found observed demonstrated ' +
    'faint weak very small minor trace strong distinct discrete still again persistent persists remains biclonal two type isotype class ' +
    'in serum urine sample specimen immunofixation ife electrophoresis result shows show reveals demonstrates confirms'
  ).split(' '),
)

const HEAVY = /^ig([gamde])$/
const isLight = (word: string | undefined): word is LightChain => word === 'kappa' || word === 'lambda'

interface Spelt {
  readonly band: Band
  /** How many words spell it. */
  readonly words: number
}

/** Words after a chain that add nothing: "light chain", and that it is alone. */
function tailOf(words: readonly (string | undefined)[], allowed: readonly string[]): number {
  const at = words.findIndex((word) => word === undefined || !allowed.includes(word))
  return at === -1 ? words.length : at
}

function wholeBand(words: readonly string[], heavy: HeavyChain): Spelt | null {
  const named = words[1] === 'heavychain' ? 2 : 1
  const light = words[named]
  if (isLight(light)) return { band: { heavy, light }, words: named + 1 + tailOf(words.slice(named + 1, named + 2), ['lightchain']) }
  return named === 1 ? { band: { heavy, light: null }, words: 1 } : null
}

/** A free light chain: called free, or said to stand without a heavy chain. A light chain that is only named is not understood. */
function freeBand(words: readonly string[]): Spelt | null {
  const named = words.slice(0, 4).findIndex(isLight)
  const light = words[named]
  if (!isLight(light)) return null
  const before = words.slice(0, named)
  const after = tailOf(words.slice(named + 1, named + 4), ['free', 'lightchain', 'alone'])
  const said = [...before, ...words.slice(named + 1, named + 1 + after)]
  const known = before.every((word) => word === 'free' || word === 'lightchain')
  return known && (said.includes('free') || said.includes('alone')) ? { band: { heavy: null, light }, words: named + 1 + after } : null
}

/** The bands the words spell, or null where a word is left over, or where one of several bands does not name its light chain. */
function bandsOf(words: readonly string[]): readonly Band[] | null {
  const bands: Band[] = []
  for (let at = 0; at < words.length; ) {
    const rest = words.slice(at)
    const heavy = HEAVY.exec(rest[0] ?? '')?.[1]?.toUpperCase() as HeavyChain | undefined
    const spelt = heavy === undefined ? freeBand(rest) : wholeBand(rest, heavy)
    if (spelt === null) return null
    bands.push(spelt.band)
    at += spelt.words
  }
  if (bands.length > 1 && bands.some(({ light }) => light === null)) return null
  return bands.length === 0 ? null : bands
}

/** Characters. A laboratory says it in a line or two (ours); a longer text is for a person, and reading it word by word would take for ever. */
const LONGEST = 1_000

/**
 * Reads the text of an immunofixation: "IgG kappa", "free kappa light chains", "IgG kappa and IgA lambda" (biclonal), the negative forms, and
 * "cannot exclude". A text with any word that is not understood stays `unread`, so that "IgG kappa no longer seen" is never taken as positive.
 * Words as laboratories use them: common practice, no source.
 */
export function readImmunofixation(text: string): Immunofixation {
  if (text.length > LONGEST) return { reading: 'unread', text }
  const plain = plainImmunofixation(text)
  if (NEGATIVE.test(plain.replace(/^((serum|urine) )?(immunofixation|ife)( electrophoresis)?( result)?( is| shows?| reveals| demonstrates)? /, '')))
    return { reading: 'negative' }
  if (UNSURE.test(plain)) return ALSO_CERTAIN.test(plain) ? { reading: 'unread', text } : { reading: 'cannot-exclude' }
  const bands = bandsOf(plain.split(' ').filter((word) => !AROUND.has(word)))
  return bands === null ? { reading: 'unread', text } : { reading: 'positive', bands }
}
