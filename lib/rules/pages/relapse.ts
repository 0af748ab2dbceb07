import { fromMemory, ours, publishedIn } from '../../models/index.ts'
import type { RuleId } from '../ruleId.ts'
import { SOURCES } from '../sources.ts'
import { ANAEMIA_CAUSES, CALCIUM_CAUSES, DUE_TO_CLONE, KIDNEY_CAUSES, LIGHT_CHAIN_CAUSES, SERUM_CAUSES, URINE_CAUSES } from './causes.ts'
import { BASELINE_OF_LINE, IONISED_DAYS, RATIO_INTERVALS } from './published.ts'
import type { RulePage, RuleSection } from './rulePage.ts'

const TWO_SAMPLES = { window: 'within-7-days', when: 'whether the last sample alone shows it or the last two do' } as const
const COMPLETE_RESPONSE = publishedIn(
  SOURCES.imwg2016,
  'Complete response: immunofixation negative in serum and in urine, and marrow plasma cells below 5 %.',
)
const ANTIBODY = ours('A therapeutic antibody may show as an IgG kappa band for 6 months after the drug.', 'antibodyMonths')

const PAGES = {
  'significant-relapse': {
    runsIn: 'active',
    windows: [
      { window: 'within-7-days', when: 'always; two samples show it' },
      { window: 'within-30-days', when: 'light chains across a change of laboratory or method' },
    ],
    numbers: [
      publishedIn(SOURCES.rajkumar2011, 'Both samples at least twice the lowest M-protein, and at least 5 g/L.'),
      publishedIn(
        SOURCES.rajkumar2011,
        'Or both above the lowest by at least 10 g/L in serum, 500 mg/24 h in urine, or 200 mg/L and 25 % in the involved light chain with an abnormal ratio.',
      ),
      fromMemory('The two samples lie at most 62 days apart.'),
      BASELINE_OF_LINE,
    ],
    how: ['Both samples are held against the lowest value before the first of them.', 'It may come before progression is confirmed.'],
    cannotSee: [
      'Two such samples further apart than 62 days, however high.',
      'A single sample, however high.',
      'A value reported in words ("trace"): it has no number that can rise.',
      'What was lower before the current treatment line.',
    ],
    elseCauses: [...new Set([...SERUM_CAUSES, ...URINE_CAUSES, ...LIGHT_CHAIN_CAUSES])],
  },
  'relapse-from-cr': {
    runsIn: 'active',
    windows: [
      { window: 'within-7-days', when: 'confirmed' },
      { window: 'within-30-days', when: 'unconfirmed' },
    ],
    numbers: [COMPLETE_RESPONSE, ANTIBODY],
    how: [
      'This alone is not progression.',
      'Serum and urine are followed each by itself, and of several bands each by itself.',
      'The original light chain without its heavy chain is not both: the rule for a band that needs typing tells it.',
    ],
    cannotSee: [
      'A complete response of which a part was never recorded.',
      'A band whose type the report does not name, and any band where the type at diagnosis is not recorded.',
      'Relapse from minimal residual disease, which immunofixation does not show.',
    ],
    elseCauses: [
      'a therapeutic antibody, which shows as IgG kappa (caution "antibody drug")',
      'harmless bands while the immune system recovers',
      'another laboratory’s eye',
    ],
  },
  'band-needs-typing': {
    runsIn: 'active',
    windows: [{ window: 'next-visit', when: 'always' }],
    numbers: [COMPLETE_RESPONSE, ANTIBODY],
    how: [
      'Where the type at diagnosis is not recorded, or the band names no light chain, every band is of this kind: a type is never guessed.',
      'A free light chain of the original kind alone is told as that: it may be light-chain escape. In urine it is usual while serum shows the whole protein.',
      'Of several bands each is a finding of its own, confirmed only by the same band.',
    ],
    cannotSee: [
      'What the band is.',
      'How strong it is: immunofixation gives no number.',
      'A report that could not be read: the patient page lists it for a person to read.',
    ],
    elseCauses: ['a therapeutic antibody', 'oligoclonal bands after transplantation', 'a second clone', 'a report that names one chain only'],
  },
  'relapse-calcium': {
    runsIn: 'active',
    windows: [TWO_SAMPLES, { window: 'next-visit', when: 'the nearest ionised calcium is not above its upper limit (caution "ionised normal")' }],
    numbers: [
      publishedIn(SOURCES.imwg2016, 'Total calcium above 2.75 mmol/L (11 mg/dL).'),
      fromMemory('Upper limit of ionised calcium 1.30 mmol/L where the laboratory names none.'),
      IONISED_DAYS,
    ],
    how: ['Adjusted calcium is shown beside it and does not decide.'],
    cannotSee: [
      DUE_TO_CLONE,
      'A raised calcium hidden by a low albumin: this criterion asks total calcium. The danger rule asks adjusted calcium too.',
    ],
    elseCauses: CALCIUM_CAUSES,
  },
  'relapse-haemoglobin': {
    runsIn: 'active',
    windows: [TWO_SAMPLES],
    numbers: [publishedIn(SOURCES.imwg2016, 'A fall of at least 20 g/L from the highest value of the line.'), BASELINE_OF_LINE],
    how: [],
    cannotSee: [
      DUE_TO_CLONE,
      'Transfusions and growth factors, which make the highest value too high or the fall too small.',
      'Whether treatment explains the fall: under treatment it often does (common practice).',
      'How low haemoglobin is: the fall alone is asked.',
    ],
    elseCauses: ANAEMIA_CAUSES,
  },
  'relapse-creatinine': {
    runsIn: 'active',
    windows: [TWO_SAMPLES],
    numbers: [publishedIn(SOURCES.imwg2016, 'A rise of at least 177 umol/L (2 mg/dL) from the start of the line.'), BASELINE_OF_LINE],
    how: ['The start of the line is the baseline of creatinine.'],
    cannotSee: [
      DUE_TO_CLONE,
      'Anything without a creatinine near the start of the line.',
      'Damage that was there before the line, and a smaller rise. The danger rule for the kidney asks how fast creatinine rises.',
      'Dialysis, which lowers the value.',
    ],
    elseCauses: KIDNEY_CAUSES,
  },
  'light-chain-escape': {
    runsIn: 'active',
    windows: [
      { window: 'within-7-days', when: 'confirmed' },
      { window: 'within-30-days', when: 'unconfirmed, or across a change of laboratory or method' },
    ],
    numbers: [
      publishedIn(SOURCES.imwg2016, 'dFLC (involved less uninvolved chain) more than 100 mg/L and at least 25 % above its lowest value.'),
      publishedIn(SOURCES.escape2014, '54 of 520 relapses were of this kind.'),
      ...RATIO_INTERVALS,
      BASELINE_OF_LINE,
    ],
    how: [
      'The rules of progression for serum and urine cannot see this kind of relapse.',
      'Where the last serum immunofixation shows the original light chain and no longer the heavy chain, the finding says so.',
    ],
    cannotSee: [
      'Patients measurable by neither serum nor urine: progression by free light chains is theirs.',
      'Days with one chain only, and patients whose involved chain is not known.',
      'An escape beside a certain progression in serum or urine: it is then told by that rule alone.',
    ],
    elseCauses: LIGHT_CHAIN_CAUSES,
  },
} as const satisfies Partial<Record<RuleId, RulePage>>

export const RELAPSE_SECTION = {
  title: 'Relapse',
  intro: 'They run in active disease, beside the rules of progression.',
  causesAreMedical: true,
  pages: PAGES,
} as const satisfies RuleSection
