import { active, every4Weeks, smouldering } from './patients.ts'
import type { RuleCase } from './ruleTable.ts'
import { testRule } from './ruleTable.ts'

const calcium = (values: string[], unit = 'mmol/L', more = {}) => every4Weeks('calcium', unit, values, more)
const creatinine = (values: string[], unit = 'umol/L') => every4Weeks('creatinine', unit, values)
const hb = (values: string[], unit = 'g/L', more = {}) => every4Weeks('haemoglobin', unit, values, more)
const one = { state: 'unconfirmed', window: 'within-7-days' } as const

testRule('mde-calcium', {
  fires: [
    { why: 'one step above 2.75 mmol/L', given: smouldering(calcium(['2.76'])), shows: { ...one, certainty: 'certain', cautions: ['one-sample'] } },
    { why: 'one step above 11 mg/dL', given: smouldering(calcium(['11.1'], 'mg/dL')), shows: one },
    {
      why: 'two in a row confirm',
      given: smouldering(calcium(['2.5', '2.8', '2.9'])),
      shows: { state: 'confirmed', since: '2024-07-01', cautions: [] },
    },
    { why: '0.26 above the laboratory’s upper limit', given: smouldering(calcium(['2.66'], 'mmol/L', { referenceHigh: '2.40' })), shows: one },
    { why: '1.1 mg/dL above the laboratory’s upper limit', given: smouldering(calcium(['10.9'], 'mg/dL', { referenceHigh: '9.8' })), shows: one },
    {
      why: 'adjusted for albumin 36 it is 2.76',
      given: smouldering([...calcium(['2.68']), ...every4Weeks('albumin', 'g/L', ['36'])]),
      shows: one,
    },
    { why: 'in MGUS too', given: smouldering(calcium(['2.76']), { diagnosis: ['2024-06-01', 'mgus'] }), shows: one },
    {
      why: 'a normal ionised calcium 7 days later makes it a note',
      given: smouldering([...calcium(['2.9']), ['2024-06-10', 'ionised-calcium', '1.30', 'mmol/L']]),
      shows: { window: 'next-visit', cautions: ['one-sample', 'ionised-normal'] },
    },
    {
      why: 'a raised ionised calcium leaves it',
      given: smouldering([...calcium(['2.9']), ['2024-06-04', 'ionised-calcium', '1.31', 'mmol/L']]),
      shows: one,
    },
    {
      why: 'an ionised calcium 8 days later says nothing',
      given: smouldering([...calcium(['2.9']), ['2024-06-11', 'ionised-calcium', '1.1', 'mmol/L']]),
      shows: { ...one, cautions: ['one-sample'] },
    },
    {
      why: 'above a limit it may lie below: possible',
      given: smouldering(calcium(['<3.1'])),
      shows: { certainty: 'possible', window: 'within-30-days' },
    },
  ],
  quiet: [
    { why: 'on 2.75 mmol/L', given: smouldering(calcium(['2.75'])) },
    { why: 'one step below 2.75 mmol/L', given: smouldering(calcium(['2.74'])) },
    { why: 'on 11 mg/dL', given: smouldering(calcium(['11.0'], 'mg/dL')) },
    { why: 'one step below 11 mg/dL', given: smouldering(calcium(['10.9'], 'mg/dL')) },
    { why: 'exactly 0.25 above the laboratory’s upper limit', given: smouldering(calcium(['2.65'], 'mmol/L', { referenceHigh: '2.40' })) },
    { why: 'exactly 1 mg/dL above the laboratory’s upper limit', given: smouldering(calcium(['10.8'], 'mg/dL', { referenceHigh: '9.8' })) },
    { why: 'adjusted for albumin 36 it is 2.75', given: smouldering([...calcium(['2.67']), ...every4Weeks('albumin', 'g/L', ['36'])]) },
    { why: 'the latest sample no longer shows it', given: smouldering(calcium(['2.9', '2.5'])) },
    { why: 'active disease has its own rule', given: active(calcium(['2.9'])) },
  ],
})

const young = { birthDate: '1994-01-01' }
/** 68 years on the day of the sample: (140 - 68) x 80 / (72 x 2) is exactly 40 mL/min. */
const weighed = { birthDate: '1956-01-01', weightKg: '80' }

const quietKidneys: RuleCase[] = [
  { why: 'on 177 umol/L', given: smouldering(creatinine(['177']), young) },
  { why: 'one step below 177 umol/L', given: smouldering(creatinine(['176']), young) },
  { why: 'on 2 mg/dL', given: smouldering(creatinine(['2.0'], 'mg/dL'), young) },
  { why: 'one step below 2 mg/dL', given: smouldering(creatinine(['1.9'], 'mg/dL'), young) },
  { why: 'clearance exactly 40', given: smouldering(creatinine(['2.0'], 'mg/dL'), weighed) },
  { why: 'clearance exactly 40, in umol/L', given: smouldering(creatinine(['176.8']), weighed) },
  { why: 'clearance a step above 40', given: smouldering(creatinine(['176.7']), weighed) },
]
testRule('mde-renal', {
  fires: [
    { why: 'one step above 177 umol/L', given: smouldering(creatinine(['178']), young), shows: one },
    { why: 'one step above 2 mg/dL', given: smouldering(creatinine(['2.1'], 'mg/dL'), young), shows: one },
    { why: 'clearance one step below 40', given: smouldering(creatinine(['176.9']), weighed), shows: one },
    { why: 'clearance below 40 in mg/dL', given: smouldering(creatinine(['1.99'], 'mg/dL'), { ...weighed, weightKg: '79' }), shows: one },
    { why: 'eGFR below 40 where no weight is known', given: smouldering(creatinine(['170']), { birthDate: '1950-01-01' }), shows: one },
    { why: 'two in a row confirm', given: smouldering(creatinine(['180', '190']), young), shows: { state: 'confirmed' } },
  ],
  quiet: quietKidneys,
})

testRule('mde-anaemia', {
  fires: [
    { why: 'one step below 100 g/L', given: smouldering(hb(['99'], 'g/L', { referenceLow: '120' })), shows: one },
    { why: 'one step below 10 g/dL', given: smouldering(hb(['9.9'], 'g/dL', { referenceLow: '12.0' })), shows: one },
    { why: '21 below the laboratory’s lower limit', given: smouldering(hb(['109'], 'g/L', { referenceLow: '130' })), shows: one },
    { why: '2.1 g/dL below the laboratory’s lower limit', given: smouldering(hb(['10.9'], 'g/dL', { referenceLow: '13.0' })), shows: one },
    { why: 'a man without a laboratory limit: 109 is 21 below 130', given: smouldering(hb(['109'])), shows: one },
    {
      why: 'two in a row confirm',
      given: smouldering(hb(['99', '98'], 'g/L', { referenceLow: '120' })),
      shows: { state: 'confirmed', cautions: [] },
    },
    { why: 'ten times too small: the unit is suspect', given: smouldering(hb(['130', '13'])), shows: { cautions: ['one-sample', 'unit-suspect'] } },
  ],
  quiet: [
    { why: 'on 100 g/L', given: smouldering(hb(['100'], 'g/L', { referenceLow: '120' })) },
    { why: 'one step above 100 g/L', given: smouldering(hb(['101'], 'g/L', { referenceLow: '120' })) },
    { why: 'on 10 g/dL', given: smouldering(hb(['10.0'], 'g/dL', { referenceLow: '12.0' })) },
    { why: 'exactly 20 below the lower limit', given: smouldering(hb(['110'], 'g/L', { referenceLow: '130' })) },
    { why: 'a woman without a laboratory limit: 101 is 19 below 120', given: smouldering(hb(['101']), { sex: 'female' }) },
  ],
})
