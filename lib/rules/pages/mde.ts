import { fromMemory, publishedIn } from '../../models/index.ts'
import type { RuleId } from '../ruleId.ts'
import { SOURCES } from '../sources.ts'
import { ANAEMIA_CAUSES, CALCIUM_CAUSES, DUE_TO_CLONE, KIDNEY_CAUSES } from './causes.ts'
import { ADJUSTED_CALCIUM, IONISED_DAYS } from './published.ts'
import type { RulePage, RuleSection } from './rulePage.ts'

const TWO_SAMPLES = { window: 'within-7-days', when: 'whether the last sample alone shows it or the last two do' } as const
const ONE_LOOK = { window: 'within-7-days', when: 'always; it needs no second sample' } as const

const PAGES = {
  'mde-calcium': {
    runsIn: 'precursor',
    windows: [TWO_SAMPLES, { window: 'next-visit', when: 'the nearest ionised calcium is not above its upper limit (caution "ionised normal")' }],
    numbers: [
      publishedIn(SOURCES.imwg2014, 'Above 2.75 mmol/L (11 mg/dL), or more than 0.25 mmol/L (1 mg/dL) above the laboratory’s upper limit.'),
      ADJUSTED_CALCIUM,
      fromMemory('Upper limit of ionised calcium 1.30 mmol/L where the laboratory names none.'),
      IONISED_DAYS,
    ],
    how: [
      'Total and adjusted calcium are both asked, and both are shown.',
      'Adjusted calcium takes the albumin of the same day; without one, total calcium alone decides.',
    ],
    cannotSee: [
      DUE_TO_CLONE,
      'A raised ionised calcium on its own: the rule asks total and adjusted calcium.',
      'That adjusting misleads where the M-protein itself binds calcium.',
    ],
    elseCauses: CALCIUM_CAUSES,
  },
  'mde-renal': {
    runsIn: 'precursor',
    windows: [TWO_SAMPLES],
    numbers: [
      publishedIn(SOURCES.imwg2014, 'Creatinine above 177 umol/L (2 mg/dL), or clearance below 40 mL/min.'),
      publishedIn('CKD-EPI 2021, Inker, NEJM 2021;385:1737', 'eGFR from creatinine, age and sex.'),
    ],
    how: [
      'Clearance after Cockcroft and Gault where a weight is known, else eGFR in its place; the sentence says which of the two was used.',
      'Age counts in whole years on the day of collection.',
    ],
    cannotSee: [
      DUE_TO_CLONE,
      'Whether it is new or old.',
      'How old the weight is: one weight a patient is kept, without its day.',
      'Muscle, diet and dialysis, which move creatinine by themselves.',
      'A measured clearance: it is not taken in.',
    ],
    elseCauses: KIDNEY_CAUSES,
  },
  'mde-anaemia': {
    runsIn: 'precursor',
    windows: [TWO_SAMPLES],
    numbers: [
      publishedIn(SOURCES.imwg2014, 'Below 100 g/L, or more than 20 g/L below the lower limit.'),
      fromMemory('Lower limit where the laboratory names none (WHO): men 130, women 120 g/L.'),
    ],
    how: [],
    cannotSee: [
      DUE_TO_CLONE,
      'Transfusions and growth factors, which hide it.',
      'Iron, B12, folate and bleeding: none of them is asked.',
      'The patient’s own usual value: a slow fall inside the limits shows nothing here.',
    ],
    elseCauses: ANAEMIA_CAUSES,
  },
  'mde-bone': {
    runsIn: 'precursor',
    windows: [ONE_LOOK],
    numbers: [
      publishedIn(SOURCES.imwg2014, 'At least one osteolytic lesion.'),
      fromMemory('More than one where marrow plasma cells are below 10 %.'),
    ],
    how: [
      'The latest scan whose osteolytic lesions were recorded counts.',
      'The marrow is the last one known when the scan was made, else the first after it.',
    ],
    cannotSee: [
      DUE_TO_CLONE,
      'Scans whose lesions nobody counted in the file.',
      'How large a lesion is.',
      'That lesions do not vanish: a later and coarser scan that records none (an X-ray after a CT) ends the finding. Look at the past findings.',
    ],
    elseCauses: ['metastasis', 'infection', 'a benign lesion or cyst', 'an old fracture', 'hyperparathyroidism'],
  },
  'mde-marrow': {
    runsIn: 'precursor',
    windows: [ONE_LOOK],
    numbers: [publishedIn(SOURCES.imwg2014, 'Clonal marrow plasma cells at or above 60 %.')],
    how: ['The latest marrow counts, whether it came as a course event or as a laboratory result.'],
    cannotSee: [
      'Whether the cells are clonal: the number is taken as the clonal one.',
      'Whether it was counted in an aspirate or in a biopsy.',
      'Patchy disease beside the needle.',
    ],
    elseCauses: [
      'a sample that missed or hit a focus',
      'an aspirate diluted with blood',
      'another way of counting',
      'a reactive increase, which is seldom so large',
    ],
  },
  'mde-light-chain': {
    runsIn: 'precursor',
    windows: [TWO_SAMPLES],
    numbers: [publishedIn(SOURCES.imwg2014, 'Involved ratio at or above 100 and involved free light chain at or above 100 mg/L.')],
    how: [
      'Involved and uninvolved chain come from one day.',
      'Which chain is involved: by the diagnosis, else by the first ratio outside its reference interval.',
    ],
    cannotSee: [
      'Anything while the involved chain is not known, or on days with one chain only.',
      'A ratio the laboratory reports without both chains.',
      'How high the ratio truly is when the uninvolved chain is below its limit: the finding is then possible, not certain.',
    ],
    elseCauses: [
      'a slip between mg/dL and mg/L',
      'another assay',
      'dilution in the laboratory or antigen excess',
      'a suppressed uninvolved chain, which makes any ratio large',
      'reduced kidney function, which raises both chains and the ratio a little',
    ],
  },
  'mde-mri': {
    runsIn: 'precursor',
    windows: [ONE_LOOK],
    numbers: [publishedIn(SOURCES.imwg2014, 'More than one focal lesion, each at least 5 mm.')],
    how: ['The latest MRI whose focal lesions were counted counts.'],
    cannotSee: ['Smaller lesions and diffuse change.', 'Lesions nobody counted in the file.', 'Which lesion is new: the number alone is asked.'],
    elseCauses: ['haemangioma', 'degenerative change', 'metastasis', 'islands of red marrow', 'the state after radiotherapy or growth factors'],
  },
} as const satisfies Partial<Record<RuleId, RulePage>>

export const MDE_SECTION = {
  title: 'Myeloma-defining events',
  intro: 'Organ damage or its published markers in a patient who has no active disease yet. They run in MGUS and smouldering myeloma.',
  causesAreMedical: true,
  pages: PAGES,
} as const satisfies RuleSection
