import { describe, expect, test } from 'vitest'
import { says } from '../../lib/rules/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { driftOn } from './driftOn.ts'
import { active, every4Weeks, mgus, smouldering } from './patients.ts'

const TODAY = '2024-12-20'
const serum = (values: string[], unit = 'g/L') => every4Weeks('serum-m-protein', unit, values)
const urine = (values: string[], unit = 'mg/(24.h)') => every4Weeks('urine-m-protein', unit, values)
const kappa = (values: string[], unit = 'mg/L') => every4Weeks('kappa-flc', unit, values)
const found = (given: HistoryWords) => driftOn('beyond-noise', given, TODAY)

describe('beyond-noise', () => {
  // exp(1.645 x sqrt2 x s) - 1 of Katzmann 2011, Clin Chem 57:1687: 20.7 % serum, 124.3 % urine, 91.2 % involved free light chain.
  test.each<[string, HistoryWords]>([
    ['serum a step above 20.6989 %', active(serum(['10', '12.07', '12.07']))],
    ['in g/dL', mgus(serum(['1.0', '1.21', '1.21'], 'g/dL'))],
    ['urine a step above 124.3116 %', active(urine(['50', '112.2', '112.2']))],
    ['in g/24 h', active(urine(['0.05', '0.1122', '0.1122'], 'g/(24.h)'))],
    ['involved light chain a step above 91.1565 %', smouldering(kappa(['100', '191.2', '191.2']))],
    ['in mg/dL, in active disease', active(kappa(['10', '19.12', '19.12'], 'mg/dL'))],
  ])('fires: %s', (_, given) => {
    expect(found(given)).toMatchObject([
      { state: 'confirmed', window: 'next-visit', certainty: 'certain', cautions: [], since: '2024-07-01', endedOn: null },
    ])
  })

  test.each<[string, HistoryWords]>([
    ['serum a step below', active(serum(['10', '12.06', '12.06']))],
    ['1.20 from 1.0 g/dL', mgus(serum(['1.0', '1.20', '1.20'], 'g/dL'))],
    ['urine a step below', active(urine(['50', '112.1', '112.1']))],
    ['light chain a step below', smouldering(kappa(['100', '191.1', '191.1']))],
    ['light chain a step below in mg/dL', active(kappa(['10', '19.11', '19.11'], 'mg/dL'))],
    ['the latest sample no longer shows it', active(serum(['10', '13', '13', '10']))],
    ['from not detected there is no share', active(serum(['10', 'not detected', '2', '2']))],
    ['from below a limit there is none for sure', active(serum(['10', '<1', '2', '2']))],
    ['no phase, so no lowest value', { results: serum(['10', '13', '13']) }],
    ['progression says it already', active(serum(['10', '15', '15']))],
    ['an evolving M-protein says it already', mgus(serum(['18', '23', '23']))],
    ['past the limits of MGUS says it already', mgus(serum(['24', '31', '30']))],
    [
      'an event by light chains says it already',
      smouldering([...kappa(['60', '130', '130']), ...every4Weeks('lambda-flc', 'mg/L', ['1', '1', '1'])]),
    ],
  ])('quiet: %s', (_, given) => {
    expect(found(given)).toEqual([])
  })

  test.each<[string, HistoryWords]>([
    ['one sample', active(serum(['10', '12.07']))],
    ['the sample before is not above it', active(serum(['10', '12', '12.5']))],
    ['urine, one sample', active(urine(['50', '112.2']))],
    ['light chain, one sample', smouldering(kappa(['100', '191.2']))],
  ])('unconfirmed: %s', (_, given) => {
    expect(found(given)).toMatchObject([{ state: 'unconfirmed', window: 'next-visit', certainty: 'certain', cautions: ['one-sample'] }])
  })

  test.each<[string, HistoryWords]>([
    ['serum a step below', active(serum(['10', '12.06']))],
    ['urine a step below', active(urine(['50', '112.1']))],
    ['light chain a step below', smouldering(kappa(['100', '191.1']))],
  ])('quiet on one sample: %s', (_, given) => {
    expect(found(given)).toEqual([])
  })

  test('perhaps, where a value is a limit', () => {
    expect(found(active(serum(['10', '12.5', '<14'])))).toMatchObject([{ certainty: 'possible', cautions: ['censored'] }])
  })

  test('each marker by itself, and told with its noise', () => {
    const both = found(active([...serum(['10', '12.5', '13']), ...kappa(['40', '100', '100'])]))
    expect(both.map(({ facts }) => facts.marker)).toEqual(['serum-m-protein', 'involved-flc'])
    expect(both[0]?.evidence.map(({ role, value }) => `${role} ${value}`)).toEqual(['reference 10', 'previous 12.5', 'current 13'])
    expect(both[0]?.excess).toBeCloseTo(13 / 12.06989, 6)
    expect(both.map(says)[0]).toBe(
      'M-protein 13 g/L on 2024-07-29 is 3 g/L (30 %) above the lowest value 10 g/L of 2024-06-03; noise alone explains up to 21 %. No criterion is met. Confirmed by the sample of 2024-07-01.',
    )
  })
})
