import { decimalText } from '../../units/index.ts'
import { HIGH_B2M, ISS_ALBUMIN, LOW_B2M } from '../iss.ts'
import { ours, publishedIn } from '../marked.ts'
import { R_ISS_GENETICS } from '../rIss.ts'
import { AROUND_DIAGNOSIS, AROUND_LINE } from '../stagingInputs.ts'
import type { ModelPage } from './modelPage.ts'

const GREIPP = 'Greipp 2005, J Clin Oncol 23:3412'
const PALUMBO = 'Palumbo 2015, J Clin Oncol 33:2863'
const ACTIVE = 'Active disease.'
const GENETICS = R_ISS_GENETICS.join(', ')

/** Which day's values a stage is made of. */
export const STAGING_DAYS = ours(
  `Values nearest the start of the current line, at most ${AROUND_LINE} days away, where beta-2 microglobulin is known there; else nearest the diagnosis, at most ${AROUND_DIAGNOSIS} days away.`,
)

export const ISS_PAGE: ModelPage = {
  title: 'ISS',
  asks: 'Which stage has active myeloma at the start of the line or at diagnosis, by beta-2 microglobulin and albumin?',
  runsIn: ACTIVE,
  source: GREIPP,
  tables: [
    {
      caption: 'Stages',
      head: ['Stage', 'Beta-2 microglobulin', 'Albumin'],
      rows: [
        ['I', `below ${decimalText(LOW_B2M)} mg/L`, `at or above ${decimalText(ISS_ALBUMIN)} g/L`],
        ['II', 'neither stage I nor stage III', ''],
        ['III', `at or above ${decimalText(HIGH_B2M)} mg/L`, 'not asked'],
      ],
    },
  ],
  numbers: [publishedIn(GREIPP, 'Limits of the stages.'), STAGING_DAYS],
  how: ['No per cent is given: the stage orders patients and dates from the treatment of its time.'],
  cannotSee: [
    'Genetics, age, and how the disease answers treatment.',
    'Why beta-2 microglobulin is raised.',
    'That the stage was made for newly diagnosed myeloma: at a later line it says less (common practice).',
  ],
  elseCauses: ['reduced kidney function, which raises beta-2 microglobulin', 'inflammation or liver disease, which lower albumin', 'another method'],
  beside: 'R-ISS and high risk 2025 sort the same patients by other inputs. Where they disagree, all are shown.',
}

export const R_ISS_PAGE: ModelPage = {
  title: 'R-ISS',
  asks: 'Which revised stage has active myeloma, by ISS, high-risk genetics and LDH?',
  runsIn: ACTIVE,
  source: PALUMBO,
  tables: [
    {
      caption: 'Stages',
      head: ['Stage', 'ISS', 'Genetics and LDH'],
      rows: [
        ['I', 'I', `none of ${GENETICS}, and LDH not above the laboratory’s upper limit`],
        ['II', 'neither stage I nor stage III', ''],
        ['III', 'III', `any of ${GENETICS}, or LDH above the laboratory’s upper limit`],
      ],
    },
  ],
  numbers: [publishedIn(PALUMBO, 'Limits of the stages.'), STAGING_DAYS],
  how: [
    'What was once found in the clone stays, whatever the day; any share of cells with del(17p) counts.',
    'Where what is missing could change the stage, none is given and it is named.',
  ],
  cannotSee: [
    'Genetics nobody wrote down: an empty field does not tell "none found" from "not examined".',
    'LDH without the laboratory’s upper limit.',
    'Gain of 1q, TP53 mutation and del(1p32): high risk 2025 asks for them.',
  ],
  elseCauses: [
    'reduced kidney function, which raises beta-2 microglobulin',
    'haemolysis in the tube, liver or muscle disease, which raise LDH',
    'inflammation or liver disease, which lower albumin',
  ],
  beside: 'ISS and high risk 2025 sort the same patients by other inputs. Where they disagree, all are shown.',
}
