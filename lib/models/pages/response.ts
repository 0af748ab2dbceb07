import { decimalText } from '../../units/index.ts'
import { MARROW_LIMIT } from '../completeness.ts'
import { fromMemory, publishedIn } from '../marked.ts'
import { GROWTH, PROGRESSION } from '../progressed.ts'
import {
  DFLC_FALL,
  MARROW_FALL,
  MARROW_MEASURABLE,
  SERUM_FALL,
  SERUM_MEASURABLE,
  URINE_FALL,
  URINE_LIMIT,
  URINE_MEASURABLE,
} from '../responsePart.ts'
import type { ModelPage } from './modelPage.ts'

const SOURCE = 'IMWG 2016 (Kumar, Lancet Oncol 17:e328)'
const { serum, urine, dflc, marrow } = PROGRESSION

function urineFalls(category: 'VGPR' | 'PR' | 'MR'): string {
  const [fall, limit] = [URINE_FALL[category], URINE_LIMIT[category]]
  const parts = [fall === null ? null : `falls by at least ${fall} %`, limit === null ? null : `is below ${decimalText(limit)} mg/24 h`]
  return `urine ${parts.filter((part) => part !== null).join(' or ')}`
}

export const RESPONSE_PAGE: ModelPage = {
  title: 'Response',
  asks: 'How far has the disease fallen in the current line: baseline of the line against the current values?',
  runsIn: 'Active disease with a recorded treatment line and a measurable baseline.',
  source: SOURCE,
  tables: [
    {
      caption: 'Categories, the best one that holds',
      head: ['Category', 'Holds when'],
      rows: [
        ['sCR', 'CR, a normal light-chain ratio, and a marrow without residual disease'],
        ['CR', `immunofixation negative in serum and urine, marrow plasma cells below ${decimalText(MARROW_LIMIT)} %, no plasmacytoma`],
        [
          'VGPR',
          `serum M-protein falls by at least ${SERUM_FALL.VGPR} % and ${urineFalls('VGPR')}, also where immunofixation alone is still positive`,
        ],
        ['PR', `serum M-protein falls by at least ${SERUM_FALL.PR} % and ${urineFalls('PR')}`],
        ['MR', `serum M-protein falls by at least ${SERUM_FALL.MR} % and ${urineFalls('MR')}, and it is not PR`],
        ['SD', 'none of the others'],
        [
          'PD',
          `from the lowest value a rise of at least 25 % and ${decimalText(serum.least)} g/L in serum (or ${decimalText(serum.high.least)} g/L from 50 g/L on), ${decimalText(urine.least)} mg/24 h in urine, more than ${decimalText(dflc.least)} mg/L of dFLC, ${decimalText(marrow.least)} points of marrow; a new lesion, or growth by ${decimalText(GROWTH)} %`,
        ],
      ],
    },
    {
      caption: 'Where only this is measurable at baseline',
      head: ['Measurable', 'VGPR', 'PR'],
      rows: [
        ['Free light chains', `dFLC falls by at least ${DFLC_FALL.VGPR} %`, `dFLC falls by at least ${DFLC_FALL.PR} %`],
        [`Marrow, from ${decimalText(MARROW_MEASURABLE)} % on`, 'not defined', `plasma cells fall by at least ${MARROW_FALL.PR} %`],
      ],
    },
  ],
  numbers: [
    publishedIn(SOURCE, 'Categories and their limits.'),
    publishedIn(
      `${SOURCE}; Dispenzieri 2009`,
      `Measurable at baseline: serum M-protein from ${decimalText(SERUM_MEASURABLE)} g/L, urine from ${decimalText(URINE_MEASURABLE)} mg/24 h, involved light chain from 100 mg/L with an abnormal ratio.`,
    ),
    fromMemory(`Light chains alone: VGPR at ${DFLC_FALL.VGPR} %, and CR only with a normal ratio.`),
    fromMemory('New lesion or growth of at least 50 % as progression.'),
  ],
  how: [
    'Confirmed when the assessment before was at least as good; else unconfirmed.',
    'PD is confirmed by two samples against the lowest confirmed value; lesions need no second look.',
    'A missing part is named. CR and sCR are then not given; a lower category is given as provisional.',
    'A part that was unmeasurable at baseline is not needed below CR.',
    'CR is confirmed by a second negative immunofixation of serum; urine and marrow may be the ones already seen.',
  ],
  cannotSee: [
    'An M-protein reported in words ("trace"): no fall can be told from it.',
    'A plasmacytoma nobody recorded: none recorded counts as none. Where one was recorded as the phase, CR is never given.',
    'A therapeutic antibody that keeps immunofixation positive: it then shows as VGPR.',
    'Minimal residual disease, but for the word of the marrow report.',
    'What was reached in an earlier line: each line has its own baseline.',
    'Relapse by calcium, haemoglobin or creatinine: rules of their own tell of it.',
  ],
  elseCauses: [
    'another laboratory or method',
    'an incomplete urine collection',
    'a change of kidney function, which moves light chains',
    'a therapeutic antibody',
  ],
  beside: 'The rules of progression judge each marker by itself and name its samples; the category is the answer over all of them.',
}
