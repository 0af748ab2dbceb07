import { by, fact, MARKER_WORDS, possibly, RULE_OUT_ANAEMIA, second, sentences } from './courseSentences.ts'
import type { Finding } from './finding.ts'
import { probabilitySentence } from './probabilityWords.ts'
import type { RuleId } from './ruleId.ts'
import type { Sentence } from './sentence.ts'

const WORDS: Readonly<Record<string, string>> = {
  ...MARKER_WORDS,
  'involved-ratio': 'Involved light-chain ratio',
  dflc: 'dFLC',
  'marrow-plasma-cells': 'Marrow plasma cells',
}

const MODELS: Readonly<Record<string, string>> = { mgus: 'the MGUS model', '20-2-20': '20/2/20' }

function markerOf(finding: Finding): string {
  return WORDS[fact(finding, 'marker')] ?? fact(finding, 'marker')
}

function evolving(what: string, criterion: string): Sentence {
  return (finding) => {
    const held = `${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}`
    return sentences(
      `${what} ${fact(finding, 'value')} on ${fact(finding, 'on')} ${by(finding)} ${held}; criterion: ${criterion}.`,
      second(finding),
      possibly(finding),
      probabilitySentence(finding),
    )
  }
}

function fallen(finding: Finding): string {
  const { fall } = finding.facts
  return `Haemoglobin ${fact(finding, 'value')} on ${fact(finding, 'on')} ${fall === undefined ? 'is held against' : `is ${fall} g/L below`}`
}

function usual(finding: Finding): string {
  const { usualCount: count, usualFrom: from, usualTo: to } = finding.facts
  return count === '1' ? `the sample of ${from}` : `median of ${count} samples from ${from} to ${to}`
}

function lineMeets(finding: Finding): string {
  const { late, dueOn } = finding.facts
  const next = late === undefined ? `before the next sample due on ${dueOn}` : `and the sample due on ${dueOn} has not come`
  return `meets ${fact(finding, 'level')} on ${fact(finding, 'crossesOn')}, ${next}`
}

/** The wording of every rule that says where a course is heading. */
export const DRIFT_SENTENCES = {
  'evolving-m-protein': evolving('M-protein', 'rise of at least 5 g/L, and of 10 % within 6 months from 30 g/L or more or 25 % within 12 months'),
  'evolving-haemoglobin': (finding) =>
    sentences(
      `${fallen(finding)} ${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}; criterion: two samples at least 5 g/L below one of the 12 months before.`,
      second(finding),
      possibly(finding),
      'So small a fall is inside noise: it counts beside other signs.',
    ),
  'evolving-light-chain': (finding) => evolving('dFLC', `rise of at least 169 % and more than ${fact(finding, 'amount')} within 12 months`)(finding),
  'haemoglobin-fall': (finding) =>
    sentences(
      `${fallen(finding)} the usual ${fact(finding, 'usual')} (${usual(finding)}); criterion: at least 20 g/L below the median of the samples 6 to 24 months before.`,
      second(finding),
      possibly(finding),
      RULE_OUT_ANAEMIA,
    ),
  reclassify: (finding) => {
    const limit = finding.facts.marker === 'marrow-plasma-cells' ? '10 to below 60 %' : `${fact(finding, 'limit')} or more`
    return sentences(
      `${markerOf(finding)} ${fact(finding, 'value')} on ${fact(finding, 'on')}, recorded as MGUS; limit of smouldering myeloma: ${limit}.`,
      second(finding),
      possibly(finding),
    )
  },
  'risk-step': (finding) =>
    sentences(
      `Risk factors by ${MODELS[fact(finding, 'model')] ?? fact(finding, 'model')}, of those known both times: ${fact(finding, 'count')} since ${fact(finding, 'on')}, ${fact(finding, 'before')} on ${fact(finding, 'beforeOn')}.`,
      `New: ${fact(finding, 'factors')}; before: ${fact(finding, 'were')}.`,
      possibly(finding),
    ),
  'projected-crossing': (finding) =>
    sentences(
      `${markerOf(finding)} ${fact(finding, 'value')} on ${fact(finding, 'on')}: the line through ${fact(finding, 'count')} samples since ${fact(finding, 'from')} doubles in ${fact(finding, 'doublingDays')} days and ${lineMeets(finding)}.`,
      'A projection, not a measurement.',
    ),
  'beyond-noise': (finding) =>
    sentences(
      `${markerOf(finding)} ${fact(finding, 'value')} on ${fact(finding, 'on')} ${by(finding)} the lowest value ${fact(finding, 'reference')} of ${fact(finding, 'referenceOn')}; noise alone explains up to ${fact(finding, 'noise')} %. No criterion is met.`,
      second(finding),
      possibly(finding),
    ),
} satisfies Partial<Record<RuleId, Sentence>>
