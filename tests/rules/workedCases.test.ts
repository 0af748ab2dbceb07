import { describe, expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import { courseFindings } from '../../lib/rules/courseRules.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { active, every4Weeks, sampleDay, smouldering } from './patients.ts'
import { currentBy, TODAY } from './ruleTable.ts'

/** "rule state" of every current finding. */
function shown(given: HistoryWords, today = TODAY): string[] {
  return courseFindings(traceCourse(history(given), day(today)))
    .filter(({ endedOn }) => endedOn === null)
    .map(({ rule, state }) => `${rule} ${state}`)
}

const serum = (values: string[]) => every4Weeks('serum-m-protein', 'g/L', values)
const chains = (kappa: string[], lambda: string[]) => [...every4Weeks('kappa-flc', 'mg/L', kappa), ...every4Weeks('lambda-flc', 'mg/L', lambda)]
const dflc = (values: number[]) =>
  chains(
    values.map((value) => String(value + 5)),
    values.map(() => '5'),
  )

describe('worked cases of clinical.md 6', () => {
  test('1: lowest confirmed 10; 14.9, 15.0, 15.0', () => {
    expect(currentBy('pd-serum', active(serum(['10', '10', '14.9'])))).toEqual([])
    expect(currentBy('pd-serum', active(serum(['10', '10', '14.9', '15.0'])))).toMatchObject([{ state: 'unconfirmed' }])
    expect(currentBy('pd-serum', active(serum(['10', '10', '14.9', '15.0', '15.0'])))).toMatchObject([{ state: 'confirmed' }])
  })
  test('2: lowest 30; 36 twice is 20 %, 37.5 twice confirms', () => {
    expect(currentBy('pd-serum', active(serum(['30', '30', '36', '36'])))).toEqual([])
    expect(currentBy('pd-serum', active(serum(['30', '30', '37.5', '37.5'])))).toMatchObject([{ state: 'confirmed' }])
  })
  test('3: lowest 50; 60 twice', () => {
    expect(currentBy('pd-serum', active(serum(['50', '50', '60', '60'])))).toMatchObject([{ state: 'confirmed' }])
  })
  test('4: light chain only, dFLC 80; 180 twice, 181 twice', () => {
    expect(shown(active(dflc([80, 80, 180, 180])))).toEqual([])
    expect(shown(active(dflc([80, 80, 181, 181])))).toContain('pd-light-chain confirmed')
  })
  test('5: urine 300; 520', () => {
    expect(shown(active(every4Weeks('urine-m-protein', 'mg/(24.h)', ['300', '520'])))).toEqual(['pd-urine unconfirmed'])
  })
  test('6: 4.0; 8.5 and 9.0 six weeks apart', () => {
    const given = active([
      ['2024-06-03', 'serum-m-protein', '4.0'],
      ['2024-08-01', 'serum-m-protein', '8.5'],
      ['2024-09-12', 'serum-m-protein', '9.0'],
    ])
    expect(shown(given)).toEqual(['pd-serum unconfirmed', 'significant-relapse confirmed'])
  })
  test('7: involved 95 over 0.8; 100 over 1.0', () => {
    expect(shown(smouldering(chains(['95'], ['0.8'])))).toEqual([])
    expect(shown(smouldering(chains(['100'], ['1.0'])))).toEqual(['mde-light-chain unconfirmed'])
  })
  test('8: every limit touched, then every limit crossed by one step', () => {
    const at = (calcium: string, creatinine: string, hb: string) => [
      ...every4Weeks('calcium', 'mmol/L', [calcium], { referenceHigh: '2.60' }),
      ...every4Weeks('creatinine', 'umol/L', [creatinine]),
      ...every4Weeks('haemoglobin', 'g/L', [hb], { referenceLow: '120' }),
    ]
    const limits = ['mde-calcium', 'mde-renal', 'mde-anaemia']
    expect(shown(smouldering(at('2.75', '177', '100'), { birthDate: '1956-01-01', weightKg: '80.2' }))).toEqual([])
    expect(shown(smouldering(at('2.76', '178', '99'), { birthDate: '1984-01-01', weightKg: '90' }))).toEqual(
      limits.map((rule) => `${rule} unconfirmed`),
    )
    // Clearance 40 exactly and 39.9, with creatinine at 2.0 mg/dL: (140 - 68) x kg / (72 x 2).
    const clearance = (weightKg: string) => smouldering(every4Weeks('creatinine', 'mg/dL', ['2.0']), { birthDate: '1956-01-01', weightKg })
    expect(shown(clearance('80'))).toEqual([])
    expect(shown(clearance('79.8'))).toEqual(['mde-renal unconfirmed'])
  })
  test('9: haemoglobin 109, lower limit 130', () => {
    expect(shown(smouldering(every4Weeks('haemoglobin', 'g/L', ['109'], { referenceLow: '130' })))).toEqual(['mde-anaemia unconfirmed'])
  })
  test('10: marrow 59 and 60 %', () => {
    expect(shown(smouldering([], { marrow: [['2024-06-01', '59']] }))).toEqual([])
    expect(shown(smouldering([], { marrow: [['2024-06-01', '60']] }))).toEqual(['mde-marrow met'])
  })
  test('11: MRI with one lesion; with two', () => {
    expect(shown(smouldering([], { imaging: [['2024-06-01', 'mri', { focal5mm: 1 }]] }))).toEqual([])
    expect(shown(smouldering([], { imaging: [['2024-06-01', 'mri', { focal5mm: 2 }]] }))).toEqual(['mde-mri met'])
  })
  test('12: smouldering 32, 37 g/L in 6 months; 20, 24 in 12 months', () => {
    const rise = (from: string, day1: string, to: string, day2: string) =>
      shown(smouldering([[day1, 'serum-m-protein', from, 'g/L'] as const, [day2, 'serum-m-protein', to, 'g/L'] as const]), '2025-06-10')
    expect(rise('32', '2024-12-03', '37', '2025-06-03')).toEqual(['evolving-m-protein unconfirmed'])
    expect(rise('20', '2024-06-03', '24', '2025-06-03')).toEqual([])
  })
  test('14: IgA kappa on treatment, M-protein trace, dFLC 460 to 15,194 (published case, Blood 2013;122:5351)', () => {
    const given: HistoryWords = {
      diagnosis: ['2024-06-01', 'active', { heavy: 'A', light: 'kappa' }],
      lines: [{ start: '2024-06-03' }],
      results: [...serum(['35', '8', 'trace', 'trace']), ...dflc([900, 460, 460, 15194])],
    }
    expect(shown(given)).toContain('light-chain-escape unconfirmed')
    expect(shown(given)).not.toContain('pd-serum unconfirmed')
  })
  test('15: IgA lambda 8 g/L, lambda 9,510 mg/L: measurable by light chain, so dFLC decides progression', () => {
    const given = (lambda: string[]): HistoryWords => ({
      diagnosis: ['2024-06-01', 'active', { heavy: 'A', light: 'lambda' }],
      lines: [{ start: '2024-06-03' }],
      results: [
        ...serum(['8']),
        ...chains(
          lambda.map(() => '10'),
          lambda,
        ),
      ],
    })
    expect(traceCourse(history(given(['9510'])), day(TODAY)).measurableBy).toEqual(['light-chain'])
    expect(currentBy('pd-light-chain', given(['9510', '100', '100', '250', '250']))).toMatchObject([{ state: 'confirmed' }])
  })
  test('16: calcium 3.74 with M-protein 90 g/L; then ionised 1.0 (published kind of case)', () => {
    const results = [...every4Weeks('calcium', 'mmol/L', ['3.74']), ...serum(['90'])]
    expect(currentBy('danger-calcium', active(results), '2024-06-04')).toMatchObject([{ window: 'same-day', cautions: [] }])
    const ionised = [...results, ['2024-06-04', 'ionised-calcium', '1.0', 'mmol/L'] as const]
    expect(currentBy('danger-calcium', active(ionised), '2024-06-05')).toMatchObject([{ window: 'next-visit', cautions: ['ionised-normal'] }])
  })
  test('17: stable 18, 21, 19 g/L over two years, smouldering', () => {
    const results = [
      ['2024-06-03', '18'],
      ['2025-06-02', '21'],
      ['2026-06-01', '19'],
    ].map(([on, value]) => [on ?? '', 'serum-m-protein', value ?? '', 'g/L'] as const)
    expect(shown(smouldering(results), '2026-06-10')).toEqual([])
  })
})

test('a past finding says when it ended, and the current one since when it stands', () => {
  const found = courseFindings(traceCourse(history(active(serum(['20', '20', '26', '20', '26', '26']))), day(TODAY))).filter(
    ({ rule }) => rule === 'pd-serum',
  )
  expect(found).toMatchObject([
    { since: sampleDay(2), endedOn: sampleDay(3), state: 'unconfirmed' },
    { since: sampleDay(4), endedOn: null, state: 'confirmed' },
  ])
})
