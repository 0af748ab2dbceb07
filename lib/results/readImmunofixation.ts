import type { Band, HeavyChain, Immunofixation, LightChain } from './immunofixation.ts'

const NEGATIVE = new RegExp(
  '^(neg(ative)?|none( (detected|seen|identified))?|not detected|absent|normal( pattern)?|' +
    '(no|no evidence of( an?)?) (monoclonal|m|abnormal)[ -]?(immunoglobulins?|proteins?|bands?|components?|gammopathy|paraproteins?|spike)?|no paraproteins?)' +
    '( (detected|seen|identified|present|found|demonstrated))?( in (serum|urine))?$',
)
const UNSURE = /\b(cannot|can not|unable to|could not) (be )?exclude|\bnot excluded\b|^(equivocal|indeterminate)$/
const ALSO_CERTAIN = /\b(present|detected|positive|identified|seen)\b/

/** Words that stand around a band and change nothing of what it is. Any word outside this list leaves the text unread. */
const AROUND = new Set(
  (
    'positive pos for a an and with plus monoclonal m protein proteins paraprotein component components gammopathy immunoglobulin band bands ' +
    'present detected seen identified found faint weak small trace biclonal two type in serum urine'
  ).split(' '),
)

/** Greek letters spelt, hyphens and commas as blanks, "light chain(s)" and "Bence Jones (protein)" as one word each. */
function normalised(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll('κ', ' kappa ')
    .replaceAll('λ', ' lambda ')
    .replace(/[-–,;:/()+&]/g, ' ')
    .replace(/\.(?=\s|$)/g, ' ')
    .replace(/\blight chains?\b/g, 'lightchain')
    .replace(/\bbence jones( proteins?)?\b/g, 'free')
    .replace(/\s+/g, ' ')
    .trim()
}

const HEAVY = /^ig([gamde])$/
const isLight = (word: string | undefined): word is LightChain => word === 'kappa' || word === 'lambda'

/** The bands the words spell, or null where a word is left over. */
function bandsOf(words: readonly string[]): readonly Band[] | null {
  const bands: Band[] = []
  for (let at = 0; at < words.length; ) {
    const heavy = HEAVY.exec(words[at] ?? '')?.[1]?.toUpperCase() as HeavyChain | undefined
    const rest = words.slice(at + (heavy === undefined ? 0 : 1), at + 4)
    const [first, second] = rest
    if (heavy !== undefined) {
      const light = isLight(first) ? first : null
      bands.push({ heavy, light })
      at += light === null ? 1 : second === 'lightchain' ? 3 : 2
    } else if (first === 'free' && isLight(second)) {
      bands.push({ heavy: null, light: second })
      at += rest[2] === 'lightchain' ? 3 : 2
    } else if (isLight(first) && second === 'free') {
      bands.push({ heavy: null, light: first })
      at += rest[2] === 'lightchain' ? 3 : 2
    } else return null
  }
  return bands.length === 0 ? null : bands
}

/**
 * Reads the text of an immunofixation: "IgG kappa", "free kappa light chains", "IgG kappa and IgA lambda" (biclonal), the negative forms, and
 * "cannot exclude". A text with any word that is not understood stays `unread`, so that "IgG kappa no longer seen" is never taken as positive.
 * Words as laboratories use them: common practice, no source.
 */
export function readImmunofixation(text: string): Immunofixation {
  const plain = normalised(text)
  if (NEGATIVE.test(plain)) return { reading: 'negative' }
  if (UNSURE.test(plain)) return ALSO_CERTAIN.test(plain) ? { reading: 'unread', text } : { reading: 'cannot-exclude' }
  const bands = bandsOf(plain.split(' ').filter((word) => !AROUND.has(word)))
  return bands === null ? { reading: 'unread', text } : { reading: 'positive', bands }
}
