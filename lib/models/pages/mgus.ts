import { decimalText } from '../../units/index.ts'
import { publishedIn } from '../marked.ts'
import { MGUS_GROUPS, MGUS_SERUM } from '../mgusModel.ts'
import type { ModelPage } from './modelPage.ts'

const SOURCE = 'Rajkumar 2005, Blood 106:812'

export const MGUS_PAGE: ModelPage = {
  title: 'MGUS',
  asks: 'How likely does MGUS progress within 20 years, by serum M-protein, type and light-chain ratio?',
  runsIn: 'MGUS.',
  source: SOURCE,
  tables: [
    {
      caption: 'Factors',
      head: ['Factor', 'Counts when'],
      rows: [
        ['Serum M-protein', `at or above ${decimalText(MGUS_SERUM)} g/L`],
        ['Heavy chain', 'not IgG'],
        ['Kappa/lambda ratio', 'outside its reference interval'],
      ],
    },
    {
      caption: 'Risk of progression',
      head: ['Factors', 'Group', 'Per cent', 'Within'],
      rows: MGUS_GROUPS.map(([group, percent], factors) => [String(factors), group, percent, '20 years']),
    },
  ],
  numbers: [
    publishedIn(SOURCE, 'Factors, groups and per cent.'),
    publishedIn('Katzmann 2002, Clin Chem 48:1437', 'Ratio normal from 0.26 to 1.65.'),
    publishedIn('Hutchison 2008, CJASN 3:1684', 'From 0.37 to 3.1 where eGFR is below 60.'),
  ],
  how: ['Each input is the latest one known.', 'Without all three no group is given, and what is missing is named.'],
  cannotSee: [
    'Other causes of death: the figures are those of the published cohort, not of this patient.',
    'Light-chain MGUS: the model was made for MGUS with a heavy chain (common practice). Lowmark counts "no heavy chain" as not IgG.',
    'Values reported in words: the latest one with a number counts, however old.',
    'How the values moved: only the latest are asked.',
  ],
  elseCauses: [
    'reduced kidney function, which moves the ratio',
    'infection or inflammation',
    'another laboratory or method',
    'a value that moves across its limit by noise alone',
  ],
  beside: null,
}
