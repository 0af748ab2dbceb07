import { BETA, COMPLETE, COMPLETE_ANTIBODY, LEUKAEMIA, LIGHT_MAINTAINED, MAINTAINED, ON_TREATMENT, SILENT_ON_TREATMENT, URINE } from './bases.ts'
import type { Scenario } from './scenario.ts'

const plus = (rise: number) => (truth: number) => truth + rise

/** Active courses whose last samples show progression (clinical.md 3.2) and the cautions it can carry, or come near it (3.4). */
export const PROGRESSION_SCENARIOS: readonly Scenario[] = [
  { name: 'pd-serum unconfirmed', per400: 1, base: MAINTAINED, visits: [{ daysAgo: 9, changes: { 'serum-m-protein': plus(7.5) } }] },
  {
    name: 'pd-serum confirmed',
    per400: 1,
    base: MAINTAINED,
    visits: [
      { daysAgo: 44, changes: { 'serum-m-protein': plus(8) } },
      { daysAgo: 12, changes: { 'serum-m-protein': plus(10.5) } },
    ],
  },
  {
    name: 'pd-serum, method changed',
    per400: 1,
    base: MAINTAINED,
    visits: [{ daysAgo: 11, elsewhere: true, changes: { 'serum-m-protein': plus(7) } }],
  },
  {
    name: 'pd-serum, inside noise',
    per400: 1,
    base: { ...ON_TREATMENT, diagnosedAgo: 86 },
    visits: [
      { daysAgo: 78, changes: { 'serum-m-protein': 52 } },
      { daysAgo: 50, changes: { 'serum-m-protein': 51.5 } },
      { daysAgo: 24, changes: { 'serum-m-protein': 61.8 } },
    ],
  },
  { name: 'pd-serum, censored', per400: 1, base: { ...MAINTAINED, residue: 0.014 }, visits: [{ daysAgo: 8, changes: { 'serum-m-protein': 7.2 } }] },
  {
    name: 'pd-serum, lowest not confirmed',
    per400: 1,
    base: { ...MAINTAINED, residue: 0.26 },
    visits: [
      { daysAgo: 180, changes: { 'serum-m-protein': 8 } },
      { daysAgo: 97, changes: { 'serum-m-protein': 11.8 } },
      { daysAgo: 40, changes: { 'serum-m-protein': 13.6 } },
      { daysAgo: 9, changes: { 'serum-m-protein': 13.8 } },
    ],
  },
  { name: 'pd-urine unconfirmed', per400: 1, base: URINE, visits: [{ daysAgo: 10, changes: { 'urine-m-protein': 380 } }] },
  {
    name: 'pd-urine confirmed',
    per400: 1,
    base: URINE,
    visits: [
      { daysAgo: 42, changes: { 'urine-m-protein': 430 } },
      { daysAgo: 12, changes: { 'urine-m-protein': 480 } },
    ],
  },
  { name: 'pd-light-chain unconfirmed', per400: 1, base: LIGHT_MAINTAINED, visits: [{ daysAgo: 9, changes: { 'kappa-flc': 190, 'lambda-flc': 8 } }] },
  {
    name: 'pd-light-chain confirmed',
    per400: 1,
    base: LIGHT_MAINTAINED,
    visits: [
      { daysAgo: 43, changes: { 'kappa-flc': 205, 'lambda-flc': 8 } },
      { daysAgo: 11, changes: { 'kappa-flc': 236, 'lambda-flc': 7 } },
    ],
  },
  {
    name: 'pd-marrow unconfirmed',
    per400: 1,
    base: SILENT_ON_TREATMENT,
    visits: [{ daysAgo: 12 }],
    course: [
      { on: -200, event: 'marrow', plasma_cells_percent: '10' },
      { on: -12, event: 'marrow', plasma_cells_percent: '24' },
    ],
  },
  {
    name: 'pd-marrow confirmed',
    per400: 1,
    base: SILENT_ON_TREATMENT,
    visits: [{ daysAgo: 13 }],
    course: [
      { on: -280, event: 'marrow', plasma_cells_percent: '11' },
      { on: -200, event: 'marrow', plasma_cells_percent: '10' },
      { on: -62, event: 'marrow', plasma_cells_percent: '24' },
      { on: -13, event: 'marrow', plasma_cells_percent: '29' },
    ],
  },
  {
    name: 'pd-lesion',
    per400: 1,
    base: MAINTAINED,
    visits: [{ daysAgo: 11 }],
    course: [{ on: -11, event: 'imaging', modality: 'pet-ct', lytic_lesions: '2', new_lesions: '1', growth_percent: '10' }],
  },
  {
    name: 'pd-circulating',
    per400: 1,
    base: LEUKAEMIA,
    visits: [
      ...[121, 94, 66, 38].map((daysAgo) => ({ daysAgo, changes: { 'circulating-plasma-cells': 1, 'white-cells': 5 } })),
      { daysAgo: 10, changes: { 'circulating-plasma-cells': 4.5, 'white-cells': 7 } },
    ],
  },
  {
    name: 'significant-relapse',
    per400: 1,
    base: { ...MAINTAINED, residue: 0.06 },
    visits: [
      { daysAgo: 50, changes: { 'serum-m-protein': 6.2 } },
      { daysAgo: 12, changes: { 'serum-m-protein': 6.7 } },
    ],
  },
  {
    name: 'relapse-from-cr unconfirmed',
    per400: 1,
    base: COMPLETE,
    visits: [{ daysAgo: 9, changes: { 'serum-m-protein': 0.7, 'serum-immunofixation': 'IgG kappa' } }],
  },
  {
    name: 'relapse-from-cr confirmed',
    per400: 1,
    base: COMPLETE,
    visits: [
      { daysAgo: 45, changes: { 'serum-m-protein': 0.7, 'serum-immunofixation': 'IgG kappa' } },
      { daysAgo: 10, changes: { 'serum-m-protein': 1.2, 'serum-immunofixation': 'IgG kappa' } },
    ],
  },
  {
    name: 'band-needs-typing, antibody drug',
    per400: 1,
    base: COMPLETE_ANTIBODY,
    visits: [{ daysAgo: 12, changes: { 'serum-immunofixation': 'IgG kappa' } }],
  },
  { name: 'relapse-calcium', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 33 }, { daysAgo: 6, changes: { calcium: 2.87, albumin: 40 } }] },
  { name: 'relapse-haemoglobin', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 33 }, { daysAgo: 7, changes: { haemoglobin: plus(-27) } }] },
  { name: 'relapse-creatinine', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 45 }, { daysAgo: 18, changes: { creatinine: plus(215) } }] },
  {
    name: 'light-chain-escape unconfirmed',
    per400: 1,
    base: ON_TREATMENT,
    visits: [{ daysAgo: 61 }, { daysAgo: 33 }, { daysAgo: 6, changes: { 'kappa-flc': 152, 'lambda-flc': 8 } }],
  },
  {
    name: 'light-chain-escape confirmed, renal interval',
    per400: 1,
    base: ON_TREATMENT,
    egfr: 46,
    visits: [
      { daysAgo: 61 },
      { daysAgo: 33, changes: { 'kappa-flc': 168, 'lambda-flc': 8 } },
      { daysAgo: 6, changes: { 'kappa-flc': 214, 'lambda-flc': 8 } },
    ],
  },
  {
    name: 'light-chain-escape, unit suspect',
    per400: 1,
    base: ON_TREATMENT,
    visits: [
      { daysAgo: 31, changes: { 'kappa-flc': 28, 'lambda-flc': 8 } },
      { daysAgo: 5, changes: { 'kappa-flc': 212, 'lambda-flc': 8 } },
    ],
  },
  {
    name: 'projected-crossing',
    per400: 1,
    base: MAINTAINED,
    visits: [
      { daysAgo: 250, changes: { 'serum-m-protein': 5.8 } },
      { daysAgo: 168, changes: { 'serum-m-protein': 6.8 } },
      { daysAgo: 90, changes: { 'serum-m-protein': 8.0 } },
      { daysAgo: 10, changes: { 'serum-m-protein': 9.3 } },
    ],
  },
  {
    name: 'beyond-noise',
    per400: 1,
    base: MAINTAINED,
    visits: [
      { daysAgo: 94, changes: { 'serum-m-protein': 8.2 } },
      { daysAgo: 11, changes: { 'serum-m-protein': 8.3 } },
    ],
  },
  { name: 'pd-serum unconfirmed, by quantitative IgA', per400: 1, base: BETA, visits: [{ daysAgo: 13, changes: { iga: plus(7.5) } }] },
  {
    name: 'band-needs-typing, heavy chain lost',
    per400: 1,
    base: COMPLETE,
    visits: [{ daysAgo: 15, changes: { 'serum-immunofixation': 'free kappa' } }],
  },
]
