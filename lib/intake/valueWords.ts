import { ANALYTES, type Analyte } from '../results/index.ts'

/** What a text without a number says. `limitText` is the number a report names with "trace (<1)". */
export type ValueWords =
  | { readonly kind: 'not-detected' }
  | { readonly kind: 'present'; readonly limitText: string | null }
  | { readonly kind: 'none'; readonly reason: string }

const M_PROTEINS: ReadonlySet<Analyte> = new Set(ANALYTES.filter((analyte) => analyte.endsWith('-m-protein')))

const SEEN = '(detected|seen|identified|present|found|observed|demonstrated)'
const NOT_DETECTED = new RegExp(
  `^(not (detected|seen|identified|present|found|observed|demonstrated)|none( ${SEEN})?|negative|absent|nil|undetectable|` +
    `no( evidence of( an?)?)? (monoclonal|m|abnormal)[ -]?(proteins?|immunoglobulins?|bands?|components?|gammopathy|paraproteins?|spikes?)( ${SEEN})?|` +
    `no paraproteins?( bands?)?( ${SEEN})?)$`,
)

const TOO_LITTLE = '(not quantifiable|unquantifiable|non[ -]quantifiable|not quantified|too (small|faint|low|weak) to (quantify|quantitate|measure))'
const PRESENT = new RegExp(
  `^(${TOO_LITTLE}|((trace|faint|weak)( (amounts?|bands?|m[ -]?protein|monoclonal (protein|band)))?|detected|present|positive)( ?[,;(-]? ?(but )?${TOO_LITTLE}\\)?)?( ${SEEN})?)$`,
)
const WITH_LIMIT = /^(.*?)[ ,;:(]*(?:<=?|≤|less than|below) ?([\d.]+)\)?$/

const NO_VALUE = new RegExp(
  '^((sample |specimen )?(grossly |slightly )?ha?emoly[sz]ed( sample| specimen)?|qns|quantity not sufficient|(sample |specimen )?insufficient( sample| specimen| quantity| volume)?|' +
    'see (comments?|notes?|report|text|below)|(result )?pending|to follow|cancell?ed|(test )?not (done|performed|tested|reported|available|received|collected|measured)|' +
    'clotted|lipa?emic|icteric|contaminated|unsuitable|rejected|no (sample|specimen)( received)?|(sample |specimen )?(lost|unsuitable|rejected|clotted)|n/a|invalid)' +
    '([ ,;:.(–-].*)?$',
)

const LONGEST = 200

/** Lower case, single blanks, no full stop at the end. */
function plainWords(text: string): string {
  return text
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .replace(/[ .!]+$/, '')
    .trim()
}

/**
 * Reads a value that is words: no value with the laboratory's reason, and for an M-protein "not detected" and "present, no number". Null for any
 * text that is none of them ("ND" among them: it means "not detected" in one laboratory and "not done" in another). Common practice, no source.
 */
export function readWords(analyte: Analyte, text: string): ValueWords | null {
  if (text.length > LONGEST) return null
  const plain = plainWords(text)
  if (plain === '') return { kind: 'none', reason: 'empty' }
  // A text that carries a digit may carry a value; only a person takes it for none.
  if (NO_VALUE.test(plain) && !/\d/.test(plain)) return { kind: 'none', reason: text }
  if (!M_PROTEINS.has(analyte)) return null
  if (NOT_DETECTED.test(plain)) return { kind: 'not-detected' }
  if (PRESENT.test(plain)) return { kind: 'present', limitText: null }
  const [, words, limitText] = WITH_LIMIT.exec(plain) ?? []
  return words !== undefined && limitText !== undefined && PRESENT.test(words) ? { kind: 'present', limitText } : null
}
