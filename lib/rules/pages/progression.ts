import { fromMemory, publishedIn } from '../../models/index.ts'
import type { RuleId } from '../ruleId.ts'
import { SOURCES } from '../sources.ts'
import { LIGHT_CHAIN_CAUSES, MARROW_CAUSES, SERUM_CAUSES, URINE_CAUSES } from './causes.ts'
import { BASELINE_OF_LINE, LARGE_RISE, VARIATION } from './published.ts'
import type { RulePage, RuleSection } from './rulePage.ts'

const SOON = { window: 'within-7-days', when: 'confirmed, or unconfirmed and large' } as const
const LATER = { window: 'within-30-days', when: 'unconfirmed' } as const
const SPARSE =
  'Values between two samples: where samples are few, the true lowest value may lie below the lowest one known, and a rise looks smaller.'
const BEFORE_LINE = 'What was lower before the current treatment line: a new line opens a new window of comparison.'
const IN_WORDS = 'A value reported in words ("trace"): it has no number that can rise.'

const PAGES = {
  'pd-serum': {
    runsIn: 'active',
    windows: [SOON, LATER],
    numbers: [
      publishedIn(SOURCES.imwg2016, 'A rise of at least 25 % and 5 g/L; or from 50 g/L or more, a rise of at least 10 g/L.'),
      LARGE_RISE,
      BASELINE_OF_LINE,
      publishedIn(VARIATION, 'In stable untreated patients the value varies by 8.1 % (CV).'),
    ],
    how: [
      'Quantitative IgA or IgD, or the class of a protein whose method names the beta region, is a series of its own and is never mixed with electrophoresis.',
      'It counts by the same criterion where electrophoresis showed less than 10 g/L or no number at baseline, and the finding says so.',
      'A rise of 5 g/L is more than a therapeutic antibody can show (about 2 g/L, from memory), so no caution for the drug is given here.',
    ],
    cannotSee: [
      'Disease that makes light chains only, or no M-protein at all: a light-chain escape leaves this rule silent.',
      IN_WORDS,
      BEFORE_LINE,
      SPARSE,
      'How exactly a band can be measured that runs among other proteins, as IgA often does (common practice).',
    ],
    elseCauses: SERUM_CAUSES,
  },
  'pd-urine': {
    runsIn: 'active',
    windows: [SOON, LATER],
    numbers: [
      publishedIn(SOURCES.imwg2016, 'A rise of at least 25 % and 200 mg/24 h.'),
      LARGE_RISE,
      BASELINE_OF_LINE,
      publishedIn(
        VARIATION,
        'In stable untreated patients the value varies by 35.8 % (CV), far more than the criterion asks: mind the caution "inside noise".',
      ),
    ],
    how: [],
    cannotSee: [
      'Whether the collection was complete.',
      'Urine reported as a concentration alone: it is held.',
      'Patients whose urine is not collected: nothing rises where nothing is measured.',
      BEFORE_LINE,
      SPARSE,
    ],
    elseCauses: URINE_CAUSES,
  },
  'pd-light-chain': {
    runsIn: 'active',
    windows: [SOON, { window: 'within-30-days', when: 'unconfirmed, or across a change of laboratory or method' }],
    numbers: [
      publishedIn(SOURCES.imwg2016, 'A rise of dFLC (involved less uninvolved chain) of at least 25 % and more than 100 mg/L.'),
      LARGE_RISE,
      BASELINE_OF_LINE,
      publishedIn(VARIATION, 'In stable untreated patients the involved chain varies by 28.4 % (CV).'),
    ],
    how: ['It also runs where serum and urine were not measured at baseline at all.'],
    cannotSee: [
      'Days with one chain only, and patients whose involved chain is not known.',
      'Whether the ratio is abnormal: the criterion does not ask.',
      'Patients measurable by serum or urine: the rule for light-chain escape is theirs.',
      BEFORE_LINE,
      SPARSE,
    ],
    elseCauses: LIGHT_CHAIN_CAUSES,
  },
  'pd-marrow': {
    runsIn: 'active',
    windows: [SOON, LATER],
    numbers: [
      publishedIn(SOURCES.imwg2016, 'A rise of marrow plasma cells of at least 25 % and 10 percentage points.'),
      LARGE_RISE,
      BASELINE_OF_LINE,
    ],
    how: [],
    cannotSee: [
      'Anything between two marrows, which may lie far apart.',
      'Patchy disease beside the needle.',
      'Whether it was counted in an aspirate or in a biopsy.',
      BEFORE_LINE,
    ],
    elseCauses: [...MARROW_CAUSES, 'a marrow that recovers from treatment'],
  },
  'pd-lesion': {
    runsIn: 'active',
    windows: [{ window: 'within-7-days', when: 'always; it needs no second look' }],
    numbers: [fromMemory('A new lesion, or growth of one by at least 50 %.')],
    how: ['Only imaging after the start of the current line counts, and of it the latest that recorded new lesions or growth.'],
    cannotSee: [
      'Which lesion it is.',
      'Imaging whose new lesions and growth were not entered.',
      'Whether a finer technique shows what was there before.',
    ],
    elseCauses: ['a fracture', 'infection', 'another tumour', 'bone that dies or heals after treatment', 'a technique finer than the last one'],
  },
  'pd-circulating': {
    runsIn: 'active',
    windows: [SOON, LATER],
    numbers: [fromMemory('A rise of at least 50 % and 200 cells per uL.'), LARGE_RISE, BASELINE_OF_LINE],
    how: ['The number per uL is the share in per cent of the white cells of the same day.'],
    cannotSee: [
      'Days without white cells.',
      'Patients whose disease is measurable by anything else: it does not run for them.',
      'Cells nobody looked for in the blood film.',
      BEFORE_LINE,
    ],
    elseCauses: ['infection', 'cells named wrongly by eye or machine', 'a change of white cells that moves the share'],
  },
} as const satisfies Partial<Record<RuleId, RulePage>>

export const PROGRESSION_SECTION = {
  title: 'Progression',
  intro:
    'They run in active disease. An unconfirmed rise is held against the lowest value, a confirmed one against the lowest confirmed value; two samples that show it only against a lowest value reached once stay unconfirmed (caution "lowest not confirmed"). None runs for a marker without a baseline: the rule no-baseline says so.',
  causesAreMedical: true,
  pages: PAGES,
} as const satisfies RuleSection
