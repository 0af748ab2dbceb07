import type { Finding } from './finding.ts'
import { probabilitySentence } from './probabilityWords.ts'
import type { RuleId } from './ruleId.ts'
import type { Sentence } from './sentence.ts'

export const MARKER_WORDS: Readonly<Record<string, string>> = {
  'serum-m-protein': 'M-protein',
  'urine-m-protein': 'Urine M-protein',
  'involved-flc': 'Involved free light chain',
}

const SERUM_CRITERION = 'rise of at least 25 % and 5 g/L, or of at least 10 g/L from 50 g/L or more'

const RULE_OUT_CALCIUM = 'Counts only if due to the clone; rule out hyperparathyroidism, vitamin D, dehydration, another tumour.'
const RULE_OUT_KIDNEY = 'Counts only if due to the clone; rule out dehydration, obstruction, drugs, contrast agents, diabetes, hypertension.'
export const RULE_OUT_ANAEMIA = 'Counts only if due to the clone; rule out bleeding, iron, B12 or folate deficiency, kidney disease, treatment.'
const RULE_OUT_BONE = 'Counts only if due to the clone; rule out metastasis, infection, a benign lesion.'

export function fact(finding: Finding, name: string): string {
  return finding.facts[name] ?? ''
}

export function sentences(...parts: readonly string[]): string {
  return parts.filter((part) => part !== '').join(' ')
}

export function possibly(finding: Finding): string {
  return finding.certainty === 'possible' ? 'Possible, not certain: a value is known only as a limit.' : ''
}

/** Whether a second sample stands behind it. */
export function second({ state, cautions, evidence }: Finding): string {
  const previous = evidence.find((piece) => piece.role === 'previous')
  if (state === 'confirmed') return previous === undefined ? '' : `Confirmed by the sample of ${previous.collectedOn}.`
  if (cautions.includes('lowest-not-confirmed')) return 'Two samples show it, but only against a lowest value that was reached once.'
  return state === 'unconfirmed' ? 'Second sample not yet there.' : ''
}

export function by(finding: Finding): string {
  const { rise, percent, unit } = finding.facts
  if (rise === undefined) return 'held against'
  return `is ${rise} ${unit}${percent === undefined ? '' : ` (${percent.replace(/\.0$/, '')} %)`} above`
}

function risen(what: string, criterion: string): Sentence {
  return (finding) => {
    const lowest = finding.state === 'confirmed' ? 'lowest confirmed value' : 'lowest value'
    const held = `${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}`
    return sentences(
      `${what} ${fact(finding, 'value')} on ${fact(finding, 'on')} ${by(finding)} the ${lowest} ${held}; criterion: ${criterion}.`,
      second(finding),
      possibly(finding),
      probabilitySentence(finding),
    )
  }
}

function calcium(finding: Finding, bar: string): string {
  const { adjusted, albumin, ionised, ionisedOn } = finding.facts
  return sentences(
    `Calcium ${fact(finding, 'value')} on ${fact(finding, 'on')}${adjusted === undefined ? '' : ` (adjusted ${adjusted}, albumin ${albumin})`}; limit: ${bar}.`,
    ionised === undefined ? '' : `Ionised calcium ${ionised} on ${ionisedOn} is not above its upper limit.`,
    second(finding),
    possibly(finding),
  )
}

function limited(what: string, relation: string): Sentence {
  return (finding) =>
    sentences(
      `${what} ${fact(finding, 'value')} on ${fact(finding, 'on')} is ${relation} ${fact(finding, 'limit')}.`,
      second(finding),
      possibly(finding),
    )
}

const BAND_SAYS: Readonly<Record<string, string>> = {
  original: 'The original type is back; this alone is not progression.',
  'light-alone': 'It is the original light chain without its heavy chain: the free light chains show whether it is light-chain escape.',
  other: 'Not the original type: typing decides what it is.',
  'not-known': 'Whether it is the original type cannot be told: typing decides what it is.',
}

function band(): Sentence {
  return (finding) =>
    sentences(
      `${fact(finding, 'specimen')} immunofixation on ${fact(finding, 'on')} shows ${fact(finding, 'band')}, after complete response on ${fact(finding, 'responseOn')}.`,
      BAND_SAYS[fact(finding, 'meaning')] ?? '',
      second(finding),
    )
}

function filtration({ facts }: Finding): string {
  const { filtration: rate, filtrationBy } = facts
  return rate === undefined ? '' : `, ${filtrationBy} ${rate} mL/min`
}

function lesions(finding: Finding): string {
  const { lesions: count, growth } = finding.facts
  const seen = [count === undefined ? '' : `${count} new`, growth === undefined ? '' : `growth of ${growth}`].filter((part) => part !== '')
  return `Imaging (${fact(finding, 'modality')}) on ${fact(finding, 'on')} records lesions: ${seen.join(' and ')}; criterion: a new lesion, or growth of at least 50 %.`
}

function significant(finding: Finding): string {
  const what = MARKER_WORDS[fact(finding, 'marker')] ?? fact(finding, 'marker')
  const held = `lowest value ${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}`
  return sentences(
    `${what} ${fact(finding, 'previous')} on ${fact(finding, 'previousOn')} and ${fact(finding, 'value')} on ${fact(finding, 'on')}, against the ${held}:`,
    'two samples within 62 days show a significant rise.',
    possibly(finding),
    probabilitySentence(finding),
  )
}

/** The wording of every rule that asks the course alone. */
export const COURSE_SENTENCES = {
  'mde-calcium': (finding) => {
    const upper =
      finding.facts.upper === undefined ? '' : ` or more than 0.25 mmol/L (1 mg/dL) above the laboratory’s upper limit ${finding.facts.upper}`
    return sentences(calcium(finding, `above ${fact(finding, 'limit')}${upper}`), RULE_OUT_CALCIUM)
  },
  'mde-renal': (finding) =>
    sentences(
      `Creatinine ${fact(finding, 'value')} on ${fact(finding, 'on')}${filtration(finding)}; limits: creatinine above ${fact(finding, 'limit')}, clearance or eGFR below 40 mL/min.`,
      second(finding),
      possibly(finding),
      RULE_OUT_KIDNEY,
    ),
  'mde-anaemia': (finding) =>
    sentences(
      `Haemoglobin ${fact(finding, 'value')} on ${fact(finding, 'on')}; limit: below ${fact(finding, 'limit')} (lower limit ${fact(finding, 'lower')}).`,
      second(finding),
      possibly(finding),
      RULE_OUT_ANAEMIA,
    ),
  'mde-bone': (finding) => {
    const { marrow, marrowOn } = finding.facts
    const beside = marrow === undefined ? '' : ` (marrow plasma cells ${marrow} on ${marrowOn})`
    const seen = `Imaging (${fact(finding, 'modality')}) on ${fact(finding, 'on')} records osteolytic lesions: ${fact(finding, 'value')}${beside}.`
    return sentences(seen, possibly(finding), RULE_OUT_BONE)
  },
  'mde-marrow': (finding) =>
    sentences(`Marrow plasma cells ${fact(finding, 'value')} on ${fact(finding, 'on')}; limit: 60 % or more, clonal.`, possibly(finding)),
  'mde-light-chain': (finding) => {
    const ratio = finding.facts.ratio === undefined ? '' : `, ratio ${finding.facts.ratio}`
    const pair = `Involved light chain ${fact(finding, 'value')}, uninvolved ${fact(finding, 'uninvolved')} mg/L on ${fact(finding, 'on')}${ratio}`
    return sentences(`${pair}; limits: ratio 100 or more and involved 100 mg/L or more.`, second(finding), possibly(finding))
  },
  'mde-mri': (finding) => `MRI on ${fact(finding, 'on')} records focal lesions of at least 5 mm: ${fact(finding, 'value')}; limit: more than one.`,
  'pd-serum': (finding) => {
    const { immunoglobulin } = finding.facts
    const told = risen(immunoglobulin === undefined ? 'M-protein' : `Quantitative ${immunoglobulin}`, SERUM_CRITERION)(finding)
    if (immunoglobulin === undefined) return told
    return sentences(
      told,
      `By quantitative ${immunoglobulin}, which includes normal ${immunoglobulin}: electrophoresis did not measure the protein at baseline.`,
    )
  },
  'pd-urine': risen('Urine M-protein', 'rise of at least 25 % and 200 mg/24 h'),
  'pd-light-chain': risen('dFLC', 'rise of at least 25 % and more than 100 mg/L'),
  'pd-marrow': risen('Marrow plasma cells', 'rise of at least 25 % and 10 percentage points'),
  'pd-lesion': lesions,
  'pd-circulating': risen('Circulating plasma cells', 'rise of at least 50 % and 200 per uL'),
  'significant-relapse': significant,
  'relapse-from-cr': band(),
  'band-needs-typing': band(),
  'relapse-calcium': (finding) => sentences(calcium(finding, `above ${fact(finding, 'limit')}`), RULE_OUT_CALCIUM),
  'relapse-haemoglobin': (finding) => {
    const fall = finding.facts.fall === undefined ? 'held against' : `is ${finding.facts.fall} g/L below`
    const highest = `highest value of the line, ${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}`
    return sentences(
      `Haemoglobin ${fact(finding, 'value')} on ${fact(finding, 'on')} ${fall} the ${highest}; criterion: fall of at least 20 g/L.`,
      second(finding),
      possibly(finding),
      RULE_OUT_ANAEMIA,
    )
  },
  'relapse-creatinine': (finding) => {
    const rise = finding.facts.rise === undefined ? 'held against' : `is ${finding.facts.rise} above`
    const start = `start of the line, ${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}`
    return sentences(
      `Creatinine ${fact(finding, 'value')} on ${fact(finding, 'on')} ${rise} the ${start}; criterion: rise of at least ${fact(finding, 'limit')}.`,
      second(finding),
      possibly(finding),
      RULE_OUT_KIDNEY,
    )
  },
  'light-chain-escape': (finding) =>
    sentences(
      risen('dFLC', 'rise of more than 100 mg/L and at least 25 %, ratio abnormal')(finding),
      'M-protein in serum and urine shows no progression, so the light chains rise alone.',
      finding.facts.lostOn === undefined
        ? ''
        : `Serum immunofixation on ${finding.facts.lostOn} shows ${finding.facts.lost} without the heavy chain.`,
    ),
  'danger-calcium': (finding) => calcium(finding, `${fact(finding, 'limit')} or more`),
  'danger-kidney': (finding) =>
    sentences(
      `Creatinine ${fact(finding, 'value')} on ${fact(finding, 'on')} is at least 1.5 times the lowest of the ${fact(finding, 'days')} days before,`,
      `${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}.`,
      possibly(finding),
    ),
  'danger-light-chain-kidney': (finding) =>
    sentences(
      `Involved free light chain ${fact(finding, 'value')} on ${fact(finding, 'on')} has reached 500 mg/L: light chains at this level can harm the kidney.`,
      finding.facts.kidney === 'yes' ? 'Creatinine has risen at the same time.' : '',
      possibly(finding),
    ),
  'danger-plasma-cells': limited('Circulating plasma cells', 'at or above'),
  'danger-neutrophils': limited('Neutrophils', 'below'),
  'danger-platelets': limited('Platelets', 'below'),
  'danger-haemoglobin': limited('Haemoglobin', 'below'),
} satisfies Partial<Record<RuleId, Sentence>>
