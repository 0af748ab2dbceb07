import { expect, test } from 'vitest'
import { says } from '../../lib/rules/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { active, mgus, on, smouldering } from './patients.ts'
import { currentBy, foundBy, testRule } from './ruleTable.ts'

const hb = (values: Readonly<Record<string, string>>, unit = 'g/L') => on('haemoglobin', unit, values)
const once = { state: 'unconfirmed', window: 'within-30-days', certainty: 'certain' } as const

testRule('haemoglobin-fall', {
  fires: [
    {
      why: 'on 20 g/L below one sample, 6 months to the day',
      given: mgus(hb({ '2024-06-03': '140', '2024-12-03': '120' })),
      shows: { ...once, cautions: ['one-sample'] },
    },
    { why: 'a step more', given: smouldering(hb({ '2024-06-03': '140', '2024-12-03': '119.9' })), shows: once },
    { why: 'in g/dL', given: mgus(hb({ '2024-06-03': '14.0', '2024-12-03': '12.0' }, 'g/dL')), shows: once },
    { why: '24 months to the day', given: mgus(hb({ '2022-12-03': '140', '2024-12-03': '120' })), shows: once },
    { why: 'below the mean of two', given: mgus(hb({ '2024-03-03': '139', '2024-06-03': '141', '2024-12-03': '120' })), shows: once },
    {
      why: 'below the one in the middle of three',
      given: mgus(hb({ '2024-01-03': '100', '2024-03-03': '150', '2024-06-03': '140', '2024-12-03': '120' })),
      shows: once,
    },
    {
      why: 'twice in a row',
      given: mgus(hb({ '2024-06-03': '140', '2024-12-03': '120', '2025-01-03': '118' })),
      shows: { ...once, state: 'confirmed', cautions: [] },
    },
    {
      why: 'a usual value above a limit',
      given: mgus(hb({ '2024-06-03': '>140', '2024-12-03': '120' })),
      shows: { certainty: 'certain', cautions: ['one-sample', 'censored'] },
    },
    { why: 'below a limit, perhaps', given: mgus(hb({ '2024-06-03': '140', '2024-12-03': '<130' })), shows: { certainty: 'possible' } },
  ],
  quiet: [
    { why: 'a step less', given: mgus(hb({ '2024-06-03': '140', '2024-12-03': '120.1' })) },
    { why: 'a step less in g/dL', given: mgus(hb({ '2024-06-03': '14.0', '2024-12-03': '12.1' }, 'g/dL')) },
    { why: 'a step below the mean of two', given: mgus(hb({ '2024-03-03': '138.9', '2024-06-03': '141', '2024-12-03': '120' })) },
    { why: 'a day less than 6 months', given: mgus(hb({ '2024-06-04': '140', '2024-12-03': '120' })) },
    { why: 'a day more than 24 months', given: mgus(hb({ '2022-12-02': '140', '2024-12-03': '120' })) },
    { why: 'active disease', given: active(hb({ '2024-06-03': '140', '2024-12-03': '110' })) },
  ],
})

test('a fall names every sample its usual value was made of, and is organ damage', () => {
  const [found] = currentBy('haemoglobin-fall', mgus(hb({ '2024-03-03': '139', '2024-06-03': '142', '2024-12-03': '119' })))
  expect(found).toMatchObject({ organDamage: true, facts: { usual: '140.5 g/L', fall: '21.5' } })
  expect(found?.evidence.map(({ role, value }) => `${role} ${value}`)).toEqual(['reference 139', 'reference 142', 'current 119'])
  expect(found?.excess).toBeCloseTo(120.5 / 119, 12)
  expect(found === undefined ? '' : says(found)).toContain(
    'Haemoglobin 119 g/L on 2024-12-03 is 21.5 g/L below the usual 140.5 g/L (median of 2 samples from 2024-03-03 to 2024-06-03)',
  )
})

// IMWG 2014 (Rajkumar, Lancet Oncol 15:e538).
const first = '2024-06-03'
testRule('reclassify', {
  fires: [
    { why: 'serum on 30 g/L', given: mgus(on('serum-m-protein', 'g/L', { [first]: '30' })), shows: { ...once, cautions: ['one-sample'] } },
    { why: 'a step above', given: mgus(on('serum-m-protein', 'g/L', { [first]: '30.1' })), shows: once },
    { why: 'on 3 g/dL', given: mgus(on('serum-m-protein', 'g/dL', { [first]: '3.0' })), shows: once },
    { why: 'twice', given: mgus(on('serum-m-protein', 'g/L', { [first]: '30', '2024-09-03': '31' })), shows: { ...once, state: 'confirmed' } },
    { why: 'urine on 500 mg/24 h', given: mgus(on('urine-m-protein', 'mg/(24.h)', { [first]: '500' })), shows: once },
    { why: 'a step above in urine', given: mgus(on('urine-m-protein', 'mg/(24.h)', { [first]: '501' })), shows: once },
    { why: 'on 0.5 g/24 h', given: mgus(on('urine-m-protein', 'g/(24.h)', { [first]: '0.5' })), shows: once },
    { why: 'marrow on 10 %', given: mgus([], { marrow: [[first, '10']] }), shows: { state: 'met', window: 'within-30-days', cautions: [] } },
    { why: 'marrow a step above', given: mgus([], { marrow: [[first, '11']] }), shows: { state: 'met' } },
    { why: 'marrow a step below 60 %', given: mgus([], { marrow: [[first, '59']] }), shows: { state: 'met' } },
    { why: 'above a limit, perhaps', given: mgus(on('serum-m-protein', 'g/L', { [first]: '>25' })), shows: { certainty: 'possible' } },
  ],
  quiet: [
    { why: 'serum a step below', given: mgus(on('serum-m-protein', 'g/L', { [first]: '29.9' })) },
    { why: '2.9 g/dL', given: mgus(on('serum-m-protein', 'g/dL', { [first]: '2.9' })) },
    { why: 'urine a step below', given: mgus(on('urine-m-protein', 'mg/(24.h)', { [first]: '499' })) },
    { why: '0.49 g/24 h', given: mgus(on('urine-m-protein', 'g/(24.h)', { [first]: '0.49' })) },
    { why: 'marrow a step below 10 %', given: mgus([], { marrow: [[first, '9']] }) },
    { why: 'marrow on 60 %, which defines myeloma', given: mgus([], { marrow: [[first, '60']] }) },
    { why: 'already recorded as smouldering', given: smouldering(on('serum-m-protein', 'g/L', { [first]: '35' }), { marrow: [[first, '20']] }) },
  ],
})

test('serum, urine and marrow are told each by itself', () => {
  const given = mgus([...on('serum-m-protein', 'g/L', { [first]: '33' }), ...on('urine-m-protein', 'mg/(24.h)', { [first]: '600' })], {
    marrow: [[first, '15']],
  })
  expect(currentBy('reclassify', given).map(says)).toEqual([
    'M-protein 33 g/L on 2024-06-03, recorded as MGUS; limit of smouldering myeloma: 30 g/L or more. Second sample not yet there.',
    'Urine M-protein 600 mg/24 h on 2024-06-03, recorded as MGUS; limit of smouldering myeloma: 500 mg/24 h or more. Second sample not yet there.',
    'Marrow plasma cells 15 % on 2024-06-03, recorded as MGUS; limit of smouldering myeloma: 10 to below 60 %.',
  ])
})

test('a marrow is reported once, whichever way it came', () => {
  const words: HistoryWords = mgus([[first, 'marrow-plasma-cells', '12']], { marrow: [[first, '12']] })
  expect(foundBy('reclassify', words)).toHaveLength(1)
})
