import { ours, practice, publishedIn } from '../../models/index.ts'
import { SOURCES } from '../sources.ts'
import { ANAEMIA_CAUSES, LIGHT_CHAIN_CAUSES, MARROW_CAUSES, SERUM_CAUSES, URINE_CAUSES } from './causes.ts'
import { VARIATION } from './published.ts'
import type { RulePage, RuleSection } from './rulePage.ts'

type DriftRuleId =
  | 'evolving-m-protein'
  | 'evolving-haemoglobin'
  | 'evolving-light-chain'
  | 'haemoglobin-fall'
  | 'reclassify'
  | 'risk-step'
  | 'projected-crossing'
  | 'beyond-noise'

const SOON = { window: 'within-30-days', when: 'always' } as const
const RAVI = 'Ravi 2016, Blood Cancer J 6:e454'
const IN_WORDS = 'A value reported in words ("trace"): it has no number that can rise.'
const BELIEFS = ours(
  'For the probability: growth is going on in one patient in five when the samples begin; in the others it begins within five years in half; it doubles in three months to ten years.',
)
const PROBABILITY =
  'The probability asks how far the true value has risen between the two days told, given every comparable sample up to the latest, back to a clear fall; it decides nothing.'
const GROWTH_ENDED = 'That growth has ended: the probability takes growth, once begun, to go on, and says too much where it has stopped.'
const OTHER_METHOD = 'Whether a change of laboratory or method made the difference: it carries a caution and no more.'

const PAGES = {
  'evolving-m-protein': {
    runsIn: 'precursor',
    windows: [SOON],
    numbers: [
      publishedIn(RAVI, 'A rise of at least 10 % within 6 months where the earlier value is at least 30 g/L, or of at least 25 % within 12 months.'),
      publishedIn(RAVI, 'And of at least 5 g/L.'),
      publishedIn(VARIATION, 'In stable untreated patients the value varies by 8.1 % (CV); noise alone can make a rise of 20.7 % (one-sided 95 %).'),
      BELIEFS,
    ],
    how: [PROBABILITY],
    cannotSee: [
      'A rise slower than this, however long it lasts, and one below 5 g/L.',
      'That a rise of 10 % lies inside noise: mind the caution "inside noise".',
      GROWTH_ENDED,
      'Disease that makes light chains only.',
      IN_WORDS,
      OTHER_METHOD,
    ],
    elseCauses: SERUM_CAUSES,
  },
  'evolving-haemoglobin': {
    runsIn: 'precursor',
    windows: [
      { window: 'within-30-days', when: 'the rule for evolving M-protein holds too' },
      { window: 'next-visit', when: 'else' },
    ],
    numbers: [publishedIn(RAVI, 'A fall of at least 5 g/L within 12 months, in two samples.')],
    how: ['So small a fall alone lies inside noise.'],
    cannotSee: [
      'Whether the fall is more than noise.',
      'Transfusions, iron, B12, folate and bleeding: none of them is asked.',
      'A fall slower than this.',
      OTHER_METHOD,
    ],
    elseCauses: ANAEMIA_CAUSES,
  },
  'evolving-light-chain': {
    runsIn: 'precursor',
    windows: [SOON],
    numbers: [
      publishedIn('Wu 2018, Blood Adv 2:1470', 'dFLC (involved less uninvolved chain) up by at least 169 % within 12 months.'),
      ours('And by more than 100 mg/L.', 'evolvingLightChainMgL'),
      publishedIn(VARIATION, 'In stable untreated patients the involved chain varies by 28.4 % (CV).'),
      BELIEFS,
    ],
    how: [PROBABILITY],
    cannotSee: [
      'Days with one chain only, and patients whose involved chain is not known.',
      'A slower rise, and a large rise in per cent from a small value.',
      GROWTH_ENDED,
      'Kidney function: it raises both chains.',
      OTHER_METHOD,
    ],
    elseCauses: LIGHT_CHAIN_CAUSES,
  },
  'haemoglobin-fall': {
    runsIn: 'precursor',
    windows: [SOON],
    numbers: [
      practice('A fall of at least 20 g/L below the patient’s own usual value.'),
      practice('Usual: the median of the samples 6 to 24 months before.'),
    ],
    how: [],
    cannotSee: [
      'Patients without samples 6 to 24 months before: they have no usual value yet.',
      'Transfusions and growth factors, in the usual value and in the latest.',
      'A fall so slow that the usual value falls with it.',
    ],
    elseCauses: ANAEMIA_CAUSES,
  },
  reclassify: {
    runsIn: 'mgus',
    windows: [SOON],
    numbers: [
      publishedIn(SOURCES.imwg2014, 'M-protein at least 30 g/L, or urine at least 500 mg/24 h, or marrow plasma cells from 10 to below 60 %.'),
    ],
    how: ['These are the thresholds of smouldering myeloma. Which phase is recorded stays with a person.'],
    cannotSee: [
      'Whether the marrow cells are clonal, and patchy disease beside the needle.',
      'A marrow that was never examined, a urine that was never collected.',
      IN_WORDS,
    ],
    elseCauses: [...new Set([...SERUM_CAUSES, ...URINE_CAUSES, ...MARROW_CAUSES])],
  },
  'risk-step': {
    runsIn: 'precursor',
    windows: [SOON],
    numbers: [
      publishedIn(
        'Rajkumar 2005, Blood 106:812; Lakshman, Blood Cancer J 2018;8:59',
        'The factors are those of the model of the phase: MGUS, or 20/2/20.',
      ),
      ours('A step stays current for 90 days.', 'riskStepDays'),
    ],
    how: ['The page of each model shows its factors.'],
    cannotSee: [
      'A factor whose input is not known: it counts as no step.',
      'How far a value lies above its limit: a value that moves across the limit by a hair counts as much as one far above.',
      'That risk models were made for the day of diagnosis: a factor gained later need not mean the same risk (common practice).',
    ],
    elseCauses: [
      'a value that moves across its limit by noise alone',
      'another laboratory or method',
      'an input that was missing before and is known now',
      'a change of kidney function, which moves the light-chain ratio',
    ],
  },
  'projected-crossing': {
    runsIn: 'recorded',
    windows: [SOON],
    numbers: [
      ours('At least 3 samples of the last 12 months.', 'projectionSamples', 'projectionMonths'),
      ours(
        'The lower bound of the slope (one-sided 90 %) is above 0, and the fitted line meets the threshold before the next due sample.',
        'projectionPercent',
      ),
    ],
    how: ['The line is fitted to the logarithm of the values: steady growth in per cent.'],
    cannotSee: [
      'Growth that is not steady: a sudden rise, a treatment begun or stopped in between.',
      'What comes after the next due sample.',
      'Values known only as a limit or in words.',
      'That the patient will follow the line: it goes on from what was, and foretells nothing.',
    ],
    elseCauses: ['noise in a few samples', 'another laboratory or method', 'a change of treatment between the samples'],
  },
  'beyond-noise': {
    runsIn: 'recorded',
    windows: [{ window: 'next-visit', when: 'always' }],
    numbers: [
      publishedIn(
        VARIATION,
        'Variation in stable untreated patients (CV): serum M-protein 8.1 %, urine M-protein 35.8 %, involved free light chain 28.4 %.',
      ),
      publishedIn(
        VARIATION,
        'With it noise alone can make a rise of 20.7 %, 124.3 % and 91.2 % (reference change value, log-normal, one-sided 95 %).',
      ),
    ],
    how: [
      'It speaks only where no other criterion is met for that marker.',
      'One sample is enough, and unconfirmed; where the sample before lies above the lowest value as well, it is confirmed.',
    ],
    cannotSee: [
      'A true rise smaller than noise.',
      'That the lowest of many samples is low by chance: the longer a stable patient is followed, the more often one sample lies beyond noise.',
      'Whether the patient varies more than others: the figures come from stable, untreated patients.',
      'That among many comparisons some lie beyond noise by chance: about one in twenty of stable pairs.',
      'A value reported in words, and a rise from 0.',
    ],
    elseCauses: [...new Set([...SERUM_CAUSES, ...URINE_CAUSES, ...LIGHT_CHAIN_CAUSES])],
  },
} as const satisfies Record<DriftRuleId, RulePage>

export const DRIFT_SECTION = {
  title: 'Drift',
  intro: 'Slow change, before any criterion is met. None of them is progression or a myeloma-defining event; each says that a look is due sooner.',
  causesAreMedical: true,
  pages: PAGES,
} as const satisfies RuleSection
