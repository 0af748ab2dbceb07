import { MGUS, SMOULDERING, SMOULDERING_CLOSE } from './bases.ts'
import type { Scenario } from './scenario.ts'

/** Precursors whose last sample shows organ damage or drift (clinical.md 3.1, 3.4). */
export const PRECURSOR_SCENARIOS: readonly Scenario[] = [
  { name: 'mde-calcium', per400: 1, base: SMOULDERING, visits: [{ daysAgo: 10, changes: { calcium: 2.83, albumin: 41 } }] },
  {
    name: 'mde-calcium, ionised normal',
    per400: 1,
    base: SMOULDERING,
    visits: [{ daysAgo: 12, changes: { calcium: 2.84, albumin: 41, 'ionised-calcium': 1.21 } }],
  },
  { name: 'mde-renal', per400: 1, base: MGUS, visits: [{ daysAgo: 9, changes: { creatinine: 188 } }] },
  { name: 'mde-anaemia', per400: 1, base: SMOULDERING, visits: [{ daysAgo: 8, changes: { haemoglobin: 96 } }] },
  {
    name: 'mde-bone',
    per400: 1,
    base: SMOULDERING,
    visits: [{ daysAgo: 14 }],
    course: [{ on: -14, event: 'imaging', modality: 'ct', lytic_lesions: '2', new_lesions: '2' }],
  },
  {
    name: 'mde-marrow',
    per400: 1,
    base: SMOULDERING_CLOSE,
    visits: [{ daysAgo: 12 }],
    course: [{ on: -12, event: 'marrow', plasma_cells_percent: '63' }],
  },
  {
    name: 'mde-light-chain',
    per400: 1,
    base: SMOULDERING_CLOSE,
    visits: [{ daysAgo: 11, changes: { 'kappa-flc': 330, 'lambda-flc': 2.1 } }],
  },
  {
    name: 'mde-mri',
    per400: 1,
    base: SMOULDERING_CLOSE,
    visits: [{ daysAgo: 13 }],
    course: [{ on: -13, event: 'imaging', modality: 'mri', focal_lesions_5mm: '3', new_lesions: '3' }],
  },
  {
    name: 'evolving-m-protein',
    per400: 2,
    base: SMOULDERING,
    visits: [
      { daysAgo: 190, changes: { 'serum-m-protein': 14.2 } },
      { daysAgo: 10, changes: { 'serum-m-protein': 20.1 } },
    ],
  },
  { name: 'reclassify', per400: 1, base: MGUS, visits: [{ daysAgo: 15, changes: { 'serum-m-protein': 33.4 } }] },
  {
    name: 'haemoglobin-fall',
    per400: 1,
    base: SMOULDERING,
    visits: [
      { daysAgo: 370, changes: { haemoglobin: 146 } },
      { daysAgo: 190, changes: { haemoglobin: 145 } },
      { daysAgo: 14, changes: { haemoglobin: 121 } },
    ],
  },
  {
    name: 'evolving-haemoglobin',
    per400: 1,
    base: SMOULDERING,
    visits: [
      { daysAgo: 300, changes: { haemoglobin: 141 } },
      { daysAgo: 120, changes: { haemoglobin: 134 } },
      { daysAgo: 16, changes: { haemoglobin: 133 } },
    ],
  },
  {
    name: 'evolving-light-chain',
    per400: 1,
    base: SMOULDERING,
    visits: [
      { daysAgo: 195, changes: { 'kappa-flc': 74, 'lambda-flc': 9 } },
      { daysAgo: 12, changes: { 'kappa-flc': 262, 'lambda-flc': 15 } },
    ],
  },
  {
    name: 'risk-step',
    per400: 1,
    base: SMOULDERING,
    visits: [
      { daysAgo: 200, changes: { 'serum-m-protein': 16.8 } },
      { daysAgo: 20, changes: { 'serum-m-protein': 21.1 } },
    ],
  },
]
