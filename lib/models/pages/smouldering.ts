import { decimalText } from '../../units/index.ts'
import { SMOULDERING_GENETICS } from '../cytogenetics.ts'
import { fromMemory, publishedIn } from '../marked.ts'
import { GENETICS_POINTS, MARROW_POINTS, POINT_GROUPS, RATIO_POINTS, type Scale, SERUM_POINTS } from '../smoulderingPoints.ts'
import { CYTOGENETIC_GROUPS, GROUPS, TWENTY } from '../twentyTwoTwenty.ts'
import type { ModelPage, ModelTable } from './modelPage.ts'

const MATEOS = 'Mateos 2020, Blood Cancer J 10:102'
const LAKSHMAN = 'Lakshman 2018, Blood Cancer J 8:59'
const GENETICS = SMOULDERING_GENETICS.join(', ')
const WITHIN = '2 years'

const BLIND = [
  'How the values moved: only the latest are asked. Evolving values are a rule of their own.',
  'Values reported in words: the latest one with a number counts, however old.',
  'Other causes of death: the figures are those of the published cohort, not of this patient.',
  'That the models were made for the day of diagnosis: used later they say less (common practice).',
] as const
const GENETICS_BLIND = 'Genetics nobody wrote down: an empty field does not tell "none found" from "not examined".'
const EITHER_WAY = 'Where the involved chain is not known, a ratio as far off in either direction counts.'
const MOVES = [
  'another laboratory or method',
  'reduced kidney function, which moves the ratio',
  'a marrow that missed or hit a focus',
  'a value that moves across its limit by noise alone',
] as const

const THREE = [
  ['Marrow plasma cells', `above ${decimalText(TWENTY)} %`],
  ['Serum M-protein', `above ${decimalText(TWENTY)} g/L`],
  ['Involved light-chain ratio', `above ${decimalText(TWENTY)}`],
] as const

function risk(groups: typeof GROUPS): ModelTable {
  const last = groups.length - 1
  return {
    caption: 'Risk of progression',
    head: ['Factors', 'Group', 'Per cent', 'Within'],
    rows: groups.map(([group, percent], at) => [at === last ? `${at} or more` : String(at), group, percent, WITHIN]),
  }
}

/** The rows of one scale, lowest first: "above 10 to 25" and its points. */
function scaleRows(input: string, scale: Scale, unit: string): string[][] {
  const upwards = scale.toReversed()
  const first = upwards[0]?.[0] ?? '0'
  return [
    [input, `up to ${first}${unit}`, '0'],
    ...upwards.map(([above, points], at) => {
      const to = upwards[at + 1]?.[0]
      return [input, to === undefined ? `above ${above}${unit}` : `above ${above} to ${to}${unit}`, String(points)]
    }),
  ]
}

const POINTS_TABLES: readonly ModelTable[] = [
  {
    caption: 'Points (ends of the intervals from memory)',
    head: ['Input', 'Value', 'Points'],
    rows: [
      ...scaleRows('Involved light-chain ratio', RATIO_POINTS, ''),
      ...scaleRows('Serum M-protein', SERUM_POINTS, ' g/L'),
      ...scaleRows('Marrow plasma cells', MARROW_POINTS, ' %'),
      ['Genetics', `any of ${GENETICS}`, String(GENETICS_POINTS)],
    ],
  },
  {
    caption: 'Risk of progression (totals and per cent from memory)',
    head: ['Points in all', 'Group', 'Per cent', 'Within'],
    rows: POINT_GROUPS.map(([most, group, percent], at) => {
      const from = (POINT_GROUPS[at - 1]?.[0] ?? -1) + 1
      return [Number.isFinite(most) ? `${from} to ${most}` : `${from} or more`, group, percent, WITHIN]
    }),
  },
]

export const TWENTY_PAGE: ModelPage = {
  title: '20/2/20',
  asks: 'How likely does smouldering myeloma progress within 2 years, by how many of three values lie above 20?',
  runsIn: 'Smouldering myeloma.',
  source: `${LAKSHMAN}; ${MATEOS}`,
  tables: [{ caption: 'Factors', head: ['Factor', 'Counts when'], rows: THREE }, risk(GROUPS)],
  numbers: [publishedIn(`${LAKSHMAN}; ${MATEOS}`, 'Factors, groups and per cent. All three limits must be exceeded: 20 itself does not count.')],
  how: ['Each input is the latest one known.', EITHER_WAY, 'A group is given as soon as what is missing cannot change it; what is missing is named.'],
  cannotSee: ['Genetics: the form with genetics and the points ask for them.', ...BLIND],
  elseCauses: MOVES,
  beside: 'The points, and the form with genetics, ask the same and may answer otherwise. Where two models disagree, both are shown.',
}

export const TWENTY_CYTOGENETICS_PAGE: ModelPage = {
  title: '20/2/20 with cytogenetics',
  asks: 'The same with high-risk genetics as a fourth factor: how likely does smouldering myeloma progress within 2 years?',
  runsIn: 'Smouldering myeloma, where genetics are recorded.',
  source: MATEOS,
  tables: [{ caption: 'Factors', head: ['Factor', 'Counts when'], rows: [...THREE, ['Genetics', `any of ${GENETICS}`]] }, risk(CYTOGENETIC_GROUPS)],
  numbers: [publishedIn(MATEOS, 'Factors, groups and per cent. The three limits must be exceeded: 20 itself does not count.')],
  how: [
    'Each input is the latest one known; what was once found in the clone stays.',
    EITHER_WAY,
    'A group is given as soon as what is missing cannot change it; what is missing is named.',
  ],
  cannotSee: [GENETICS_BLIND, ...BLIND],
  elseCauses: MOVES,
  beside: '20/2/20 without genetics, and the points, ask the same and may answer otherwise. Where two models disagree, both are shown.',
}

export const POINTS_PAGE: ModelPage = {
  title: 'Smouldering points',
  asks: 'How likely does smouldering myeloma progress within 2 years, by points for ratio, M-protein, marrow and genetics?',
  runsIn: 'Smouldering myeloma.',
  source: MATEOS,
  tables: POINTS_TABLES,
  numbers: [
    publishedIn(MATEOS, 'Inputs and their points.'),
    fromMemory('To which side the ends of each interval belong.'),
    fromMemory('Totals of each group, and per cent at 2 years.'),
  ],
  how: [
    'Each input is the latest one known; what was once found in the clone stays.',
    EITHER_WAY,
    'Genetics that are not known count 0 points, and are named as missing. Without another input no group is given.',
  ],
  cannotSee: [GENETICS_BLIND, ...BLIND],
  elseCauses: MOVES,
  beside: '20/2/20 asks the same and may answer otherwise. Where the two disagree, both are shown.',
}
