import { fromMemory, ours, practice, publishedIn } from '../../models/index.ts'
import type { RuleId } from '../ruleId.ts'
import { SOURCES } from '../sources.ts'
import { ANAEMIA_CAUSES, CALCIUM_CAUSES, KIDNEY_CAUSES, LIGHT_CHAIN_CAUSES } from './causes.ts'
import { ADJUSTED_CALCIUM, IONISED_DAYS, STALE_DAYS } from './published.ts'
import type { RulePage, RuleSection } from './rulePage.ts'

const NOW = { window: 'same-day', when: 'one sample is enough' } as const
const STALE = { window: 'within-7-days', when: 'the last sample is older than 30 days (caution "stale")' } as const

const PAGES = {
  'danger-calcium': {
    runsIn: 'every',
    windows: [NOW, STALE, { window: 'next-visit', when: 'the nearest ionised calcium is not above its upper limit (caution "ionised normal")' }],
    numbers: [
      practice('At or above 3.0 mmol/L (12 mg/dL).'),
      ADJUSTED_CALCIUM,
      fromMemory('Upper limit of ionised calcium 1.30 mmol/L where the laboratory names none.'),
      IONISED_DAYS,
      STALE_DAYS,
    ],
    how: ['Adjusted calcium takes the albumin of the same day; without one, total calcium alone decides.'],
    cannotSee: ['Symptoms.', 'A dangerous ionised calcium beside a lower total one.', 'Why calcium is raised.'],
    elseCauses: CALCIUM_CAUSES,
  },
  'danger-kidney': {
    runsIn: 'every',
    windows: [NOW],
    numbers: [
      publishedIn(`after ${SOURCES.kdigo2012}`, 'Creatinine at least 1.5 times the lowest.'),
      ours('The lowest of the 90 days before.', 'kidneyInjuryDays'),
      ours('In a sample at most 14 days old.'),
    ],
    how: ['After 14 days it is history, even when no further sample came.'],
    cannotSee: [
      'A first creatinine, or one after a longer time without any: there is nothing to hold it against.',
      'A slower rise, and a high value that no longer rises.',
      'Urine output.',
    ],
    elseCauses: [...KIDNEY_CAUSES, 'light chains themselves', 'another laboratory’s method'],
  },
  'danger-light-chain-kidney': {
    runsIn: 'every',
    windows: [
      { window: 'same-day', when: 'the danger rule for the kidney holds too' },
      { window: 'within-7-days', when: 'else' },
    ],
    numbers: [publishedIn('cast nephropathy risk, IMWG', 'Involved free light chain at or above 500 mg/L.'), STALE_DAYS],
    how: [
      'It tells of the first value, or of the first after one below.',
      'Across a change of laboratory or method it carries the caution and keeps its window: the value alone is at the level.',
    ],
    cannotSee: [
      'A value that merely stays above 500 mg/L: the next sample makes the finding history.',
      'Anything while the involved chain is not known.',
      'Urine output and urine albumin.',
    ],
    elseCauses: LIGHT_CHAIN_CAUSES,
  },
  'danger-plasma-cells': {
    runsIn: 'every',
    windows: [NOW, STALE],
    numbers: [publishedIn(SOURCES.plasmaCellLeukaemia2021, 'Circulating plasma cells at or above 5 %.'), STALE_DAYS],
    how: [],
    cannotSee: ['Whether they are clonal.', 'A blood film nobody looked at.'],
    elseCauses: ['severe infection', 'cells named wrongly by eye or machine'],
  },
  'danger-neutrophils': {
    runsIn: 'every',
    windows: [NOW, STALE],
    numbers: [publishedIn(`${SOURCES.ctcae5} grade 4`, 'Below 0.5 x 10^9/L.'), STALE_DAYS],
    how: [],
    cannotSee: ['Fever.', 'Whether the fall is expected on this day of a cycle.', 'White cells alone: without a count of neutrophils it is silent.'],
    elseCauses: ['treatment', 'infection', 'other drugs', 'a clotted sample'],
  },
  'danger-platelets': {
    runsIn: 'every',
    windows: [NOW, STALE],
    numbers: [publishedIn(`${SOURCES.ctcae5} grade 4`, 'Below 25 x 10^9/L.'), STALE_DAYS],
    how: [],
    cannotSee: ['Bleeding.', 'Transfusions, which raise the count for a while.'],
    elseCauses: ['treatment', 'platelets that clump in the tube', 'heparin', 'infection', 'clotting throughout the body', 'a clotted sample'],
  },
  'danger-haemoglobin': {
    runsIn: 'every',
    windows: [NOW, STALE],
    numbers: [publishedIn(`${SOURCES.ctcae5} grade 3`, 'Below 80 g/L.'), STALE_DAYS],
    how: [],
    cannotSee: ['Bleeding and symptoms.', 'Heart disease, which makes a higher value dangerous.', 'Transfusions, which raise the value for a while.'],
    elseCauses: ANAEMIA_CAUSES,
  },
} as const satisfies Partial<Record<RuleId, RulePage>>

export const DANGER_SECTION = {
  title: 'Danger',
  intro: 'They run in every phase and without any recorded phase. One sample is enough. No review holds them back.',
  causesAreMedical: true,
  pages: PAGES,
} as const satisfies RuleSection
