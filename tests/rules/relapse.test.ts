import { active, every4Weeks, smouldering } from './patients.ts'
import { testRule } from './ruleTable.ts'

const serum = (values: string[], unit = 'g/L') => every4Weeks('serum-m-protein', unit, values)
const chains = (kappa: string[], lambda: string[], unit = 'mg/L') => [
  ...every4Weeks('kappa-flc', unit, kappa),
  ...every4Weeks('lambda-flc', unit, lambda),
]
const sure = { state: 'confirmed', window: 'within-7-days', certainty: 'certain' } as const

testRule('significant-relapse', {
  fires: [
    { why: 'doubled and on 5 g/L, twice', given: active(serum(['2.5', '5', '5'])), shows: sure },
    { why: 'in g/dL', given: active(serum(['0.25', '0.5', '0.5'], 'g/dL')), shows: sure },
    { why: 'up by 10 g/L, twice', given: active(serum(['30', '40', '40'])), shows: sure },
    {
      why: '62 days apart',
      given: active([
        ['2024-06-03', 'serum-m-protein', '4'],
        ['2024-07-01', 'serum-m-protein', '9'],
        ['2024-09-01', 'serum-m-protein', '9'],
      ]),
      shows: sure,
    },
    { why: 'urine up by 500 mg/24 h, twice', given: active(every4Weeks('urine-m-protein', 'mg/(24.h)', ['300', '800', '800'])), shows: sure },
    { why: 'urine in g/24 h', given: active(every4Weeks('urine-m-protein', 'g/(24.h)', ['0.3', '0.8', '0.8'])), shows: sure },
    { why: 'involved chain up by 200 mg/L, ratio abnormal', given: active(chains(['100', '300', '300'], ['10', '10', '10'])), shows: sure },
    { why: 'involved chain in mg/dL', given: active(chains(['10', '30', '30'], ['1', '1', '1'], 'mg/dL')), shows: sure },
    { why: 'involved chain up by 25 % where that is more', given: active(chains(['1000', '1250', '1250'], ['10', '10', '10'])), shows: sure },
  ],
  quiet: [
    { why: 'doubled but a step below 5 g/L', given: active(serum(['2.4', '4.9', '4.9'])) },
    { why: 'a step below doubled', given: active(serum(['4', '7.9', '7.9'])) },
    { why: 'up by 9.9 g/L', given: active(serum(['30', '39.9', '39.9'])) },
    { why: 'once only', given: active(serum(['4', '4', '9'])) },
    {
      why: '63 days apart',
      given: active([
        ['2024-06-03', 'serum-m-protein', '4'],
        ['2024-07-01', 'serum-m-protein', '9'],
        ['2024-09-02', 'serum-m-protein', '9'],
      ]),
    },
    { why: 'urine up by 499', given: active(every4Weeks('urine-m-protein', 'mg/(24.h)', ['300', '799', '799'])) },
    { why: 'involved chain up by 199', given: active(chains(['100', '299', '299'], ['10', '10', '10'])) },
    { why: 'involved chain a step below 25 %', given: active(chains(['1000', '1249', '1249'], ['10', '10', '10'])) },
    { why: 'ratio inside its interval', given: active(chains(['100', '300', '300'], ['100', '200', '200'])) },
    { why: 'smouldering', given: smouldering(serum(['4', '9', '9'])) },
  ],
})

const complete = [
  ['2024-09-01', 'serum-immunofixation', 'negative'],
  ['2024-09-01', 'urine-immunofixation', 'negative'],
] as const
const marrow = { marrow: [['2024-09-02', '4.9']] } as const
const fixed = (on: string, text: string) => [on, 'serum-immunofixation', text] as const
const antibody = { lines: [{ start: '2024-06-03', end: '2024-09-10', regimen: ['daratumumab'] }] }

testRule('relapse-from-cr', {
  fires: [
    {
      why: 'the original type once',
      given: active([...complete, fixed('2024-11-01', 'IgG kappa')], marrow),
      shows: { state: 'unconfirmed', window: 'within-30-days', cautions: ['one-sample'] },
    },
    {
      why: 'twice',
      given: active([...complete, fixed('2024-11-01', 'IgG kappa'), fixed('2024-12-01', 'IgG kappa')], marrow),
      shows: { ...sure, since: '2024-11-01', cautions: [] },
    },
    {
      why: 'within 6 months of a therapeutic antibody',
      given: active([...complete, fixed('2025-03-10', 'IgG kappa')], { ...marrow, ...antibody }),
      shows: { cautions: ['one-sample', 'antibody-drug'] },
    },
    {
      why: 'a day after those 6 months',
      given: active([...complete, fixed('2025-03-11', 'IgG kappa')], { ...marrow, ...antibody }),
      shows: { cautions: ['one-sample'] },
    },
  ],
  quiet: [
    { why: 'another type', given: active([...complete, fixed('2024-11-01', 'IgA lambda')], marrow) },
    { why: 'negative again', given: active([...complete, fixed('2024-11-01', 'IgG kappa'), fixed('2024-12-01', 'negative')], marrow) },
    { why: 'marrow on 5 %: no complete response', given: active([...complete, fixed('2024-11-01', 'IgG kappa')], { marrow: [['2024-09-02', '5']] }) },
    { why: 'urine never fixed', given: active([fixed('2024-09-01', 'negative'), fixed('2024-11-01', 'IgG kappa')], marrow) },
    { why: 'positive all along', given: active([fixed('2024-09-01', 'IgG kappa'), fixed('2024-11-01', 'IgG kappa')], marrow) },
  ],
})

testRule('band-needs-typing', {
  fires: [
    {
      why: 'another isotype',
      given: active([...complete, fixed('2024-11-01', 'IgA lambda')], marrow),
      shows: { state: 'unconfirmed', window: 'next-visit' },
    },
    { why: 'the other light chain', given: active([...complete, fixed('2024-11-01', 'IgG lambda')], marrow), shows: { window: 'next-visit' } },
    {
      why: 'a type beside the original one',
      given: active([...complete, fixed('2024-11-01', 'IgG kappa and IgA lambda')], marrow),
      shows: { window: 'next-visit' },
    },
  ],
  quiet: [
    { why: 'the original type alone', given: active([...complete, fixed('2024-11-01', 'IgG kappa')], marrow) },
    { why: 'no complete response before', given: active([fixed('2024-11-01', 'IgA lambda')]) },
  ],
})

testRule('relapse-calcium', {
  fires: [
    { why: 'a step above 2.75', given: active(every4Weeks('calcium', 'mmol/L', ['2.76'])), shows: { state: 'unconfirmed', window: 'within-7-days' } },
    { why: 'a step above 11 mg/dL', given: active(every4Weeks('calcium', 'mg/dL', ['11.1'])), shows: { window: 'within-7-days' } },
    {
      why: 'ionised calcium normal',
      given: active([...every4Weeks('calcium', 'mmol/L', ['2.76']), ['2024-06-01', 'ionised-calcium', '1.2']]),
      shows: { window: 'next-visit' },
    },
  ],
  quiet: [
    { why: 'on 2.75', given: active(every4Weeks('calcium', 'mmol/L', ['2.75'])) },
    { why: 'on 11 mg/dL', given: active(every4Weeks('calcium', 'mg/dL', ['11.0'])) },
    { why: 'smouldering', given: smouldering(every4Weeks('calcium', 'mmol/L', ['2.76'])) },
  ],
})

testRule('relapse-haemoglobin', {
  fires: [
    {
      why: 'on 20 g/L below the highest',
      given: active(every4Weeks('haemoglobin', 'g/L', ['110', '130', '110'])),
      shows: { state: 'unconfirmed', window: 'within-7-days' },
    },
    { why: 'a step more', given: active(every4Weeks('haemoglobin', 'g/L', ['110', '130', '109'])), shows: { state: 'unconfirmed' } },
    { why: 'on 2 g/dL', given: active(every4Weeks('haemoglobin', 'g/dL', ['11.0', '13.0', '11.0'])), shows: { state: 'unconfirmed' } },
    { why: 'twice', given: active(every4Weeks('haemoglobin', 'g/L', ['130', '110', '109'])), shows: sure },
  ],
  quiet: [
    { why: 'a step less', given: active(every4Weeks('haemoglobin', 'g/L', ['110', '130', '111'])) },
    { why: '1.9 g/dL', given: active(every4Weeks('haemoglobin', 'g/dL', ['11.0', '13.0', '11.1'])) },
    {
      why: 'the highest value was before the line',
      given: active([['2024-01-10', 'haemoglobin', '140'], ...every4Weeks('haemoglobin', 'g/L', ['110', '112'])]),
    },
  ],
})

testRule('relapse-creatinine', {
  fires: [
    {
      why: 'on 177 umol/L above the start',
      given: active(every4Weeks('creatinine', 'umol/L', ['80', '257'])),
      shows: { state: 'unconfirmed', window: 'within-7-days' },
    },
    { why: 'a step more', given: active(every4Weeks('creatinine', 'umol/L', ['80', '258'])), shows: { state: 'unconfirmed' } },
    { why: 'on 2 mg/dL above the start', given: active(every4Weeks('creatinine', 'mg/dL', ['0.9', '2.9'])), shows: { state: 'unconfirmed' } },
    { why: 'twice', given: active(every4Weeks('creatinine', 'umol/L', ['80', '257', '260'])), shows: sure },
  ],
  quiet: [
    { why: 'a step less', given: active(every4Weeks('creatinine', 'umol/L', ['80', '256'])) },
    { why: '1.9 mg/dL', given: active(every4Weeks('creatinine', 'mg/dL', ['0.9', '2.8'])) },
    {
      why: 'reported in different units, converted: 176.8 umol/L',
      given: active([...every4Weeks('creatinine', 'mg/dL', ['1.0']), ['2024-07-01', 'creatinine', '265.2', 'umol/L']]),
    },
  ],
})

const measurable = serum(['30', '10', '10', '10'])
testRule('light-chain-escape', {
  fires: [
    {
      why: 'a step above 100 mg/L',
      given: active([...measurable, ...chains(['90', '90', '191'], ['10', '10', '10'])]),
      shows: { state: 'unconfirmed', window: 'within-30-days' },
    },
    { why: 'twice', given: active([...measurable, ...chains(['90', '90', '191', '191'], ['10', '10', '10', '10'])]), shows: sure },
    {
      why: 'reduced kidney function: the renal interval',
      given: active([
        ...measurable,
        ...every4Weeks('creatinine', 'umol/L', ['150', '150', '150']),
        ...chains(['90', '90', '500'], ['10', '10', '10']),
      ]),
      shows: { cautions: ['one-sample', 'renal-interval'] },
    },
  ],
  quiet: [
    { why: 'on 100 mg/L', given: active([...measurable, ...chains(['90', '90', '190'], ['10', '10', '10'])]) },
    {
      why: 'serum progresses, which says it already',
      given: active([...serum(['30', '10', '10', '20']), ...chains(['90', '90', '500'], ['10', '10', '10'])]),
    },
    { why: 'ratio inside its interval', given: active([...measurable, ...chains(['100', '100', '400'], ['90', '90', '290'])]) },
    { why: 'nothing measurable at baseline', given: active([...serum(['5']), ...chains(['90', '90', '500'], ['10', '10', '10'])]) },
  ],
})
