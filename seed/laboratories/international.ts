import type { Laboratory } from './laboratory.ts'

/** Prints g/L, mg/L, mmol/L and umol/L, and the time of collection with its offset. */
export const INTERNATIONAL: Laboratory = {
  name: 'Ymbrask Laboratory',
  mark: 'YB',
  writesTime: true,
  methods: {
    'serum-m-protein': 'agarose electrophoresis',
    'urine-m-protein': 'urine electrophoresis',
    'kappa-flc': 'nephelometry',
    'lambda-flc': 'nephelometry',
  },
  words: { absent: 'not detected', faint: 'detected, not quantifiable' },
  band: (name) => name,
  prints: {
    'serum-m-protein': { code: '33358-3', unit: 'g/L', perKept: 1, decimals: 1, from: 1 },
    'urine-m-protein': { code: '42482-0', unit: 'g/(24.h)', perKept: 0.001, decimals: 3, from: 0.02 },
    'kappa-flc': { code: '36916-5', unit: 'mg/L', perKept: 1, decimals: 1, from: 0.6, upTo: 10000, reference: () => ['3.3', '19.4'] },
    'lambda-flc': { code: '33944-0', unit: 'mg/L', perKept: 1, decimals: 1, from: 1.3, upTo: 10000, reference: () => ['5.7', '26.3'] },
    igg: { code: '2465-3', unit: 'g/L', perKept: 1, decimals: 2, reference: () => ['7.0', '16.0'] },
    iga: { code: '2458-8', unit: 'g/L', perKept: 1, decimals: 2, from: 0.05, reference: () => ['0.7', '4.0'] },
    igm: { code: '2472-9', unit: 'g/L', perKept: 1, decimals: 2, from: 0.05, reference: () => ['0.4', '2.3'] },
    haemoglobin: { code: '718-7', unit: 'g/L', perKept: 1, decimals: 0, reference: (sex) => (sex === 'female' ? ['120', '155'] : ['130', '170']) },
    'white-cells': { code: '6690-2', unit: '10*9/L', perKept: 1, decimals: 1, reference: () => ['4.0', '10.0'] },
    neutrophils: { code: '751-8', unit: '10*9/L', perKept: 1, decimals: 2, reference: () => ['1.80', '7.50'] },
    platelets: { code: '777-3', unit: '10*9/L', perKept: 1, decimals: 0, reference: () => ['150', '400'] },
    calcium: { code: '2000-8', unit: 'mmol/L', perKept: 1, decimals: 2, reference: () => ['2.15', '2.58'] },
    'ionised-calcium': { code: '1994-3', unit: 'mmol/L', perKept: 1, decimals: 2, reference: () => ['1.15', '1.30'] },
    albumin: { code: '1751-7', unit: 'g/L', perKept: 1, decimals: 0, reference: () => ['35', '50'] },
    'total-protein': { code: '2885-2', unit: 'g/L', perKept: 1, decimals: 0, reference: () => ['64', '83'] },
    creatinine: { code: '14682-9', unit: 'umol/L', perKept: 1, decimals: 0, reference: (sex) => (sex === 'female' ? ['45', '90'] : ['60', '105']) },
    'b2-microglobulin': { code: '1952-1', unit: 'mg/L', perKept: 1, decimals: 1, reference: () => ['0.8', '2.4'] },
    ldh: { code: '2532-0', unit: 'U/L', perKept: 1, decimals: 0, reference: () => ['125', '220'] },
    'marrow-plasma-cells': { code: '11118-7', unit: '%', perKept: 1, decimals: 0 },
    'circulating-plasma-cells': { code: '13047-6', unit: '%', perKept: 1, decimals: 1 },
  },
}
