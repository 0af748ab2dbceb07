import { describe, expect, test } from 'vitest'
import { assessed, type Paper, type Printed, shown } from './onPaper.ts'

// Source of every number: clinical.md 6, which names the published criteria and cases it takes them from. Each case enters as CSV text.

const DAYS = ['2026-01-05', '2026-02-02', '2026-03-02', '2026-03-30', '2026-04-27']
const AS_OF = '2026-04-28'

/** Values four weeks apart, the first one the baseline of the line. */
const monthly = (name: Printed[1], unit: string, values: readonly string[]): Printed[] =>
  values.map((value, at) => [DAYS[at] ?? '', name, value, unit] as const)

const active = (results: readonly Printed[], chains = 'G,kappa', more: readonly string[] = []): Paper => ({
  course: [`2026-01-05,diagnosis,active,${chains}`, '2026-01-05,line-start,,,,1,bortezomib+dexamethasone,induction', ...more],
  results,
})
const smouldering = (results: readonly Printed[], more: readonly string[] = [], person: Partial<Paper> = {}): Paper => ({
  course: ['2026-01-05,diagnosis,smouldering,G,kappa', ...more],
  results,
  ...person,
})

/** The same M-proteins as three laboratories print them. */
const SERUM_UNITS = [
  ['g/L', (grams: number) => String(grams)],
  ['g/dL', (grams: number) => String(grams / 10)],
  ['mg/dL', (grams: number) => String(grams * 100)],
] as const

describe.each(SERUM_UNITS)('serum M-protein printed in %s', (unit, printed) => {
  const serum = (...grams: number[]) => shown(active(monthly('serum M', unit, grams.map(printed))), AS_OF)

  test('clinical.md 6, case 1: lowest confirmed 10; 14.9, 15.0, 15.0', () => {
    // No criterion, and told for the next visit as more than noise: 49 %.
    expect(serum(10, 10, 14.9)).toEqual(['beyond-noise unconfirmed next-visit'])
    expect(serum(10, 10, 14.9, 15)).toEqual(['pd-serum unconfirmed within-30-days'])
    expect(serum(10, 10, 14.9, 15, 15)).toEqual(['pd-serum confirmed within-7-days'])
  })

  test('clinical.md 6, case 2: lowest 30; 36 twice is 20 %, 37.5 twice is 25 %', () => {
    // No criterion, and none comes of it but by the line through the samples.
    expect(serum(30, 30, 36, 36)).toEqual(['projected-crossing unconfirmed within-30-days'])
    expect(serum(30, 30, 37.5, 37.5)).toEqual(['pd-serum confirmed within-7-days'])
  })

  test('clinical.md 6, case 3: lowest 50; 60 twice is 10 g/L though 20 %', () => {
    expect(serum(50, 50, 60, 60)).toContain('pd-serum confirmed within-7-days')
    expect(serum(50, 50, 59.9, 59.9)).toEqual([])
  })
})

test.each([
  ['mg/L', 1],
  ['mg/dL', 0.1],
] as const)('clinical.md 6, case 4: light-chain disease, dFLC 80; 180 twice, 181 twice, in %s', (unit, factor) => {
  const dflc = (...values: number[]) => {
    const kappa = values.map((value) => String(Math.round((value + 5) * factor * 10) / 10))
    const lambda = values.map(() => String(5 * factor))
    return shown(active([...monthly('kappa', unit, kappa), ...monthly('lambda', unit, lambda)]), AS_OF)
  }
  // No criterion, and told for the next visit as more than noise: kappa 85 to 185 mg/L is 118 %.
  expect(dflc(80, 80, 180, 180)).toEqual(['beyond-noise confirmed next-visit'])
  expect(dflc(80, 80, 181, 181)).toEqual(['pd-light-chain confirmed within-7-days'])
})

test.each([
  ['mg/(24.h)', '300', '520'],
  ['g/(24.h)', '0.3', '0.52'],
])('clinical.md 6, case 5: urine 300; 520, in %s', (unit, baseline, current) => {
  expect(shown(active(monthly('urine M', unit, [baseline, current])), AS_OF)).toEqual(['pd-urine unconfirmed within-30-days'])
})

test('clinical.md 6, case 6: 4.0; 8.5 and 9.0 g/L six weeks apart', () => {
  const results: Printed[] = [
    ['2026-01-05', 'serum M', '4.0', 'g/L'],
    ['2026-03-09', 'serum M', '8.5', 'g/L'],
    ['2026-04-20', 'serum M', '9.0', 'g/L'],
  ]
  expect(shown(active(results), AS_OF)).toEqual(['significant-relapse confirmed within-7-days', 'pd-serum unconfirmed within-30-days'])
})

test.each([
  ['mg/L', ['95', '0.8'], ['100', '1.0']],
  ['mg/dL', ['9.5', '0.08'], ['10', '0.1']],
] as const)('clinical.md 6, case 7: involved 95 over 0.8 mg/L; 100 over 1.0, in %s', (unit, quiet, fires) => {
  const pair = ([kappa, lambda]: readonly [string, string]) =>
    shown(smouldering([...monthly('kappa', unit, [kappa]), ...monthly('lambda', unit, [lambda])]), AS_OF)
  expect(pair(quiet)).toEqual([])
  expect(pair(fires)).toEqual(['mde-light-chain unconfirmed within-7-days'])
})

describe('clinical.md 6, case 8', () => {
  const organs = (calcium: string, creatinine: string, haemoglobin: string, weightKg: string) =>
    shown(
      smouldering(
        [
          ['2026-01-05', 'calcium', calcium, 'mmol/L', { high: '2.60' }],
          ['2026-01-05', 'creatinine', creatinine, 'umol/L'],
          ['2026-01-05', 'haemoglobin', haemoglobin, 'g/L', { low: '120' }],
        ],
        [],
        { birthDate: '1946-01-05', weightKg },
      ),
      AS_OF,
    )

  test('every limit touched: calcium 2.75, creatinine 177, haemoglobin 100: none', () => {
    expect(organs('2.75', '177', '100', '96.2')).toEqual([])
  })

  test('every limit crossed by one step: calcium 2.76, creatinine 178, haemoglobin 99: all', () => {
    const all = ['calcium', 'renal', 'anaemia'].map((organ) => `mde-${organ} unconfirmed within-7-days`)
    expect(organs('2.76', '178', '99', '110').toSorted()).toEqual(all.toSorted())
  })

  // Cockcroft-Gault, men: (140 - 80) x kg / (72 x 2.0).
  test('clearance 40 and 39.9 mL/min at 2.0 mg/dL, which is not above its own limit', () => {
    const clearance = (weightKg: string) =>
      shown(smouldering([['2026-01-05', 'creatinine', '2.0', 'mg/dL']], [], { birthDate: '1946-01-05', weightKg }), AS_OF)
    expect(clearance('96')).toEqual([])
    expect(clearance('95.7')).toEqual(['mde-renal unconfirmed within-7-days'])
  })
})

test.each([
  ['g/L', '109', '110', '130'],
  ['g/dL', '10.9', '11.0', '13.0'],
])('clinical.md 6, case 9: haemoglobin 109, lower limit 130, in %s', (unit, fires, quiet, low) => {
  const haemoglobin = (value: string) => shown(smouldering([['2026-01-05', 'haemoglobin', value, unit, { low }]]), AS_OF)
  expect(haemoglobin(fires)).toEqual(['mde-anaemia unconfirmed within-7-days'])
  expect(haemoglobin(quiet)).toEqual([])
})

test('clinical.md 6, case 10: marrow 59 and 60 %', () => {
  const marrow = (percent: string) => shown(smouldering([], [`2026-01-12,marrow,,,,,,,,,,${percent}`]), AS_OF)
  expect(marrow('59')).toEqual([])
  expect(marrow('60')).toEqual(['mde-marrow met within-7-days'])
})

test('clinical.md 6, case 11: MRI with one lesion; with two of 5 mm', () => {
  const mri = (lesions: string) => shown(smouldering([], [`2026-01-12,imaging,,,,,,,mri,,${lesions}`]), AS_OF)
  expect(mri('1')).toEqual([])
  expect(mri('2')).toEqual(['mde-mri met within-7-days'])
})

describe.each(SERUM_UNITS)('serum M-protein printed in %s', (unit, printed) => {
  const over = (months: readonly [string, string], grams: readonly [number, number]) =>
    shown(
      {
        course: ['2025-01-05,diagnosis,smouldering,G,kappa'],
        results: months.map((on, at) => [on, 'serum M', printed(grams[at] ?? 0), unit] as const),
      },
      AS_OF,
    )

  test('clinical.md 6, case 12: smouldering 32 -> 37 g/L in 6 months; 20 -> 24 in 12 months', () => {
    expect(over(['2025-10-27', '2026-04-27'], [32, 37])).toEqual(['evolving-m-protein unconfirmed within-30-days'])
    expect(over(['2025-04-27', '2026-04-27'], [20, 24])).toEqual([])
  })
})

test('clinical.md 6, case 13: M-protein 20 g/L, ratio 20, marrow 20 %; then 25, 25, 18 %', () => {
  const risk = (grams: string, kappa: string, marrow: string) =>
    assessed(
      smouldering(
        [...monthly('serum M', 'g/L', [grams]), ...monthly('kappa', 'mg/L', [kappa]), ...monthly('lambda', 'mg/L', ['5'])],
        [`2026-01-12,marrow,,,,,,,,,,${marrow}`],
      ),
      AS_OF,
    ).risk
  expect(risk('20', '100', '20')).toMatchObject([{ model: '20-2-20', factors: 0 }, { model: 'smouldering-points' }])
  expect(risk('25', '125', '18')).toMatchObject([
    { model: '20-2-20', factors: 2, percent: '44' },
    { model: 'smouldering-points', points: 7, percent: '26.2' },
  ])
})

// Source: published case, Blood 2013;122:5351.
test('clinical.md 6, case 14: IgA kappa on treatment, M-protein trace, dFLC 460 to 15,194', () => {
  const results = [
    ...monthly('serum M', 'g/L', ['35', 'trace', 'trace']),
    ...monthly('kappa', 'mg/L', ['905', '465', '15199']),
    ...monthly('lambda', 'mg/L', ['5', '5', '5']),
  ]
  const found = shown(active(results, 'A,kappa'), AS_OF)
  expect(found).toContain('light-chain-escape unconfirmed within-30-days')
  expect(found.filter((finding) => finding.startsWith('pd-'))).toEqual([])
})

test('clinical.md 6, case 15: IgA lambda 8 g/L, lambda 9,510 mg/L: measurable by light chain, not by serum', () => {
  const results = [...monthly('serum M', 'g/L', ['8']), ...monthly('lambda', 'mg/L', ['9510']), ...monthly('kappa', 'mg/L', ['10'])]
  expect(assessed(active(results, 'A,lambda'), AS_OF).course.measurableBy).toEqual(['light-chain'])
})

test('clinical.md 6, case 16: calcium 3.74 with M-protein 90 g/L; then ionised calcium 1.0', () => {
  const results: Printed[] = [
    ['2026-04-27', 'calcium', '3.74', 'mmol/L'],
    ['2026-04-27', 'serum M', '90', 'g/L'],
    ['2026-04-28', 'ionised calcium', '1.0', 'mmol/L'],
  ]
  const danger = (asOf: string) => assessed(active(results), asOf).findings.find(({ rule }) => rule === 'danger-calcium')
  expect(danger('2026-04-27')).toMatchObject({ window: 'same-day', state: 'met', cautions: [] })
  expect(danger('2026-04-28')).toMatchObject({ window: 'next-visit', cautions: ['ionised-normal'] })
})

test('clinical.md 6, case 17: stable 18, 21, 19 g/L over two years, smouldering: nothing, after the second sample either', () => {
  const results: Printed[] = [
    ['2024-04-22', 'serum M', '18', 'g/L'],
    ['2025-04-21', 'serum M', '21', 'g/L'],
    ['2026-04-20', 'serum M', '19', 'g/L'],
  ]
  const stable = { course: ['2024-04-22,diagnosis,smouldering,G,kappa'], results }
  expect(shown(stable, '2025-04-22')).toEqual([])
  expect(shown(stable, AS_OF)).toEqual([])
})

test.each([
  ['20.2', 'MR'],
  ['20.0', 'PR'],
  ['4.0', 'VGPR'],
])('clinical.md 6, case 18: baseline 40 g/L, urine never collected; %s g/L', (current, category) => {
  const { response } = assessed(active(monthly('serum M', 'g/L', ['40', current])), AS_OF)
  expect(response).toMatchObject({ category, provisional: true, missing: ['urine not collected'] })
})
