import { expect, test } from 'vitest'
import { active, every4Weeks, smouldering, unrecorded } from './patients.ts'
import { foundBy, testRule } from './ruleTable.ts'

const today = '2024-06-10'
const now = { state: 'met', window: 'same-day', certainty: 'certain', cautions: [] } as const
const calcium = (value: string, unit = 'mmol/L') => every4Weeks('calcium', unit, [value])

testRule('danger-calcium', {
  fires: [
    { why: 'on 3.0 mmol/L, without any phase', given: unrecorded(calcium('3.0')), today, shows: now },
    { why: 'a step above', given: smouldering(calcium('3.01')), today, shows: now },
    { why: 'on 12 mg/dL, though 2.994 mmol/L', given: active(calcium('12', 'mg/dL')), today, shows: now },
    { why: 'adjusted on 3.0', given: active([...calcium('2.8'), ...every4Weeks('albumin', 'g/L', ['30'])]), today, shows: now },
    { why: '30 days old', given: active(calcium('3.1')), today: '2024-07-03', shows: now },
    { why: '31 days old is stale', given: active(calcium('3.1')), today: '2024-07-04', shows: { window: 'within-7-days', cautions: ['stale'] } },
    {
      why: 'ionised calcium normal',
      given: active([...calcium('3.1'), ['2024-06-05', 'ionised-calcium', '1.2']]),
      today,
      shows: { window: 'next-visit', cautions: ['ionised-normal'] },
    },
  ],
  quiet: [
    { why: 'a step below 3.0', given: active(calcium('2.99')), today },
    { why: 'a step below 12 mg/dL', given: active(calcium('11.9', 'mg/dL')), today },
    { why: 'adjusted a step below', given: active([...calcium('2.79'), ...every4Weeks('albumin', 'g/L', ['30'])]), today },
  ],
})

const injured = (value: string, unit = 'umol/L', first = '100') => every4Weeks('creatinine', unit, [first, value])
testRule('danger-kidney', {
  fires: [
    { why: 'on 1.5 times', given: unrecorded(injured('150')), today: '2024-07-01', shows: now },
    { why: 'a step above', given: active(injured('151')), today: '2024-07-01', shows: now },
    { why: 'in mg/dL', given: active(injured('1.5', 'mg/dL', '1.0')), today: '2024-07-01', shows: now },
    { why: '14 days old', given: active(injured('150')), today: '2024-07-15', shows: now },
    {
      why: 'against a value 90 days before',
      given: active([
        ['2024-04-02', 'creatinine', '100'],
        ['2024-07-01', 'creatinine', '150'],
      ]),
      today: '2024-07-01',
      shows: now,
    },
  ],
  quiet: [
    { why: 'a step below', given: active(injured('149')), today: '2024-07-01' },
    { why: '1.49 in mg/dL', given: active(injured('1.49', 'mg/dL', '1.0')), today: '2024-07-01' },
    { why: '15 days old', given: active(injured('150')), today: '2024-07-16' },
    {
      why: 'the lower value is 91 days before',
      given: active([
        ['2024-04-01', 'creatinine', '100'],
        ['2024-07-01', 'creatinine', '150'],
      ]),
      today: '2024-07-01',
    },
  ],
})

test('a kidney injury older than 14 days ended the day after them', () => {
  expect(foundBy('danger-kidney', active(injured('150')), '2024-08-20')).toMatchObject([
    { since: '2024-07-01', endedOn: '2024-07-16', window: 'same-day', cautions: [] },
  ])
})

const kappa = (values: string[], unit = 'mg/L') => every4Weeks('kappa-flc', unit, values)
testRule('danger-light-chain-kidney', {
  fires: [
    { why: 'on 500 for the first time', given: active(kappa(['500'])), today, shows: { state: 'met', window: 'within-7-days' } },
    { why: 'a step above', given: active(kappa(['501'])), today, shows: { window: 'within-7-days' } },
    { why: 'on 50 mg/dL', given: active(kappa(['50'], 'mg/dL')), today, shows: { window: 'within-7-days' } },
    { why: 'again after having been below', given: active(kappa(['600', '499', '500'])), today: '2024-08-01', shows: { since: '2024-07-29' } },
    { why: 'with kidney injury', given: active([...kappa(['100', '500']), ...injured('150')]), today: '2024-07-02', shows: { window: 'same-day' } },
    { why: 'above a limit of measurement', given: active(kappa(['>5000'])), today, shows: { certainty: 'certain', cautions: ['censored'] } },
  ],
  quiet: [
    { why: 'a step below', given: active(kappa(['499'])), today },
    { why: '49.9 mg/dL', given: active(kappa(['49.9'], 'mg/dL')), today },
    { why: 'it was above before', given: active(kappa(['600', '700'])), today: '2024-07-02' },
    { why: 'the involved chain is not known', given: unrecorded(kappa(['900'])), today },
  ],
})

testRule('danger-plasma-cells', {
  fires: [
    { why: 'on 5 %', given: active([['2024-06-03', 'circulating-plasma-cells', '5']]), today, shows: now },
    { why: 'a step above, in MGUS too', given: smouldering([['2024-06-03', 'circulating-plasma-cells', '5.1']]), today, shows: now },
  ],
  quiet: [{ why: 'a step below', given: active([['2024-06-03', 'circulating-plasma-cells', '4.9']]), today }],
})

testRule('danger-neutrophils', {
  fires: [
    { why: 'a step below 0.5', given: active([['2024-06-03', 'neutrophils', '0.49']]), today, shows: now },
    { why: 'in 10^3/uL', given: active([['2024-06-03', 'neutrophils', '0.49', '10*3/uL']]), today, shows: now },
    {
      why: 'below 1: perhaps',
      given: active([['2024-06-03', 'neutrophils', '<1']]),
      today,
      shows: { certainty: 'possible', window: 'within-30-days', cautions: ['censored'] },
    },
  ],
  quiet: [
    { why: 'on 0.5', given: active([['2024-06-03', 'neutrophils', '0.5']]), today },
    { why: 'a step above', given: active([['2024-06-03', 'neutrophils', '0.51']]), today },
  ],
})

testRule('danger-platelets', {
  fires: [{ why: 'a step below 25', given: active([['2024-06-03', 'platelets', '24']]), today, shows: now }],
  quiet: [
    { why: 'on 25', given: active([['2024-06-03', 'platelets', '25']]), today },
    { why: 'a step above', given: active([['2024-06-03', 'platelets', '26', '10*3/uL']]), today },
  ],
})

testRule('danger-haemoglobin', {
  fires: [
    { why: 'a step below 80', given: active([['2024-06-03', 'haemoglobin', '79']]), today, shows: now },
    { why: 'a step below 8 g/dL', given: active([['2024-06-03', 'haemoglobin', '7.9', 'g/dL']]), today, shows: now },
  ],
  quiet: [
    { why: 'on 80', given: active([['2024-06-03', 'haemoglobin', '80']]), today },
    { why: 'on 8 g/dL', given: active([['2024-06-03', 'haemoglobin', '8.0', 'g/dL']]), today },
    { why: 'a step above', given: active([['2024-06-03', 'haemoglobin', '81']]), today },
  ],
})
