import { active, every4Weeks, smouldering } from './patients.ts'
import { testRule } from './ruleTable.ts'

const serum = (values: string[], unit = 'g/L', more = {}) => every4Weeks('serum-m-protein', unit, values, more)
const urine = (values: string[], unit = 'mg/(24.h)') => every4Weeks('urine-m-protein', unit, values)
/** Kappa whose difference from lambda 10 is the number asked for; the M-protein stays unmeasurable. */
const dflc = (values: string[], more = {}) => [
  ...every4Weeks(
    'kappa-flc',
    'mg/L',
    values.map((value) => String(Number(value) + 10)),
    more,
  ),
  ...every4Weeks(
    'lambda-flc',
    'mg/L',
    values.map(() => '10'),
    more,
  ),
]
const slow = { state: 'unconfirmed', window: 'within-30-days', certainty: 'certain' } as const
const sure = { state: 'confirmed', window: 'within-7-days', certainty: 'certain' } as const

testRule('pd-serum', {
  fires: [
    { why: 'on 25 % and 5 g/L, once', given: active(serum(['20', '20', '25'])), shows: { ...slow, cautions: ['one-sample'] } },
    { why: 'a step above', given: active(serum(['20', '20', '25.1'])), shows: slow },
    { why: 'in g/dL: 2.3 from 1.8', given: active(serum(['1.8', '1.8', '2.3'], 'g/dL')), shows: slow },
    { why: 'twice in a row', given: active(serum(['20', '20', '25', '25'])), shows: { ...sure, since: '2024-07-29', cautions: [] } },
    {
      why: 'from 50 on, 10 g/L though 20 %; noise can do that',
      given: active(serum(['50', '50', '60', '60'])),
      shows: { ...sure, cautions: ['inside-noise'] },
    },
    {
      why: 'twice the minimum and doubled is hastened',
      given: active(serum(['10', '10', '20'])),
      shows: { state: 'unconfirmed', window: 'within-7-days' },
    },
    { why: 'doubled but not twice the minimum is not', given: active(serum(['9', '9', '18'])), shows: slow },
    {
      why: 'against a lowest value reached once only',
      given: active(serum(['20', '10', '16', '16'])),
      shows: { state: 'unconfirmed', cautions: ['lowest-not-confirmed'] },
    },
    { why: 'from not detected the amount alone decides', given: active(serum(['20', 'not detected', '5'])), shows: slow },
    {
      why: 'from below a limit, surely',
      given: active(serum(['20', '<1', '6'])),
      shows: { certainty: 'certain', cautions: ['one-sample', 'censored'] },
    },
    { why: 'from below a limit, perhaps', given: active(serum(['20', '<1', '5.5'])), shows: { certainty: 'possible', window: 'within-30-days' } },
    {
      why: 'another laboratory',
      given: active([...serum(['20', '20']), ...serum(['', '', '26'], 'g/L', { laboratory: 'South laboratory' })]),
      shows: { cautions: ['one-sample', 'method-changed'] },
    },
    { why: 'ten times as much: the unit is suspect', given: active(serum(['20', '20', '200'])), shows: { cautions: ['one-sample', 'unit-suspect'] } },
    { why: 'plasmacytoma is run as active', given: active(serum(['20', '20', '25']), { diagnosis: ['2024-06-01', 'plasmacytoma'] }), shows: slow },
  ],
  quiet: [
    { why: 'one step below 5 g/L', given: active(serum(['20', '20', '24.9'])) },
    { why: 'in g/dL: 2.2 from 1.8', given: active(serum(['1.8', '1.8', '2.2'], 'g/dL')) },
    { why: 'from 30, 6 g/L is 20 %', given: active(serum(['30', '30', '36', '36'])) },
    { why: 'from 49, 10 g/L is 20.4 %', given: active(serum(['49', '49', '59', '59'])) },
    { why: 'from 50, 9.9 g/L', given: active(serum(['50', '50', '59.9'])) },
    { why: 'the latest sample no longer shows it', given: active(serum(['20', '20', '26', '20'])) },
    {
      why: 'a new line opens a new window',
      given: active(serum(['20', '10', '20', '20']), { lines: [{ start: '2024-06-03' }, { start: '2024-08-26' }] }),
    },
    { why: 'smouldering', given: smouldering(serum(['20', '20', '30', '30'])) },
  ],
})

testRule('pd-urine', {
  fires: [
    { why: 'on 200 mg/24 h', given: active(urine(['300', '300', '500'])), shows: { ...slow, cautions: ['one-sample', 'inside-noise'] } },
    { why: 'a step above', given: active(urine(['300', '300', '501'])), shows: slow },
    { why: 'in g/24 h', given: active(urine(['0.3', '0.3', '0.5'], 'g/(24.h)')), shows: slow },
    { why: 'on 25 % where that is more', given: active(urine(['1000', '1000', '1250', '1250'])), shows: sure },
  ],
  quiet: [
    { why: 'a step below 200', given: active(urine(['300', '300', '499'])) },
    { why: '0.49 g/24 h', given: active(urine(['0.3', '0.3', '0.49'], 'g/(24.h)')) },
    { why: 'a step below 25 %', given: active(urine(['1000', '1000', '1249', '1249'])) },
  ],
})

testRule('pd-light-chain', {
  fires: [
    { why: 'a step above 100 mg/L', given: active(dflc(['80', '80', '181', '181'])), shows: sure },
    { why: 'on 25 % where that is more', given: active(dflc(['500', '500', '625'])), shows: { ...slow, cautions: ['one-sample', 'inside-noise'] } },
    {
      why: 'another laboratory caps it',
      given: active([
        ...dflc(['80', '80']),
        ...dflc(['80', '80', '400', '400'], { laboratory: 'South laboratory' }).slice(2, 4),
        ...dflc(['80', '80', '400', '400'], { laboratory: 'South laboratory' }).slice(6),
      ]),
      shows: { state: 'confirmed', window: 'within-30-days', cautions: ['method-changed'] },
    },
  ],
  quiet: [
    { why: 'on 100 mg/L: it must be more', given: active(dflc(['80', '80', '180', '180'])) },
    { why: 'a step below', given: active(dflc(['80', '80', '179', '179'])) },
    { why: 'on 100 mg/L from 400, though 25 %', given: active(dflc(['400', '400', '500'])) },
    { why: 'a step below 25 %', given: active(dflc(['500', '500', '624'])) },
    { why: 'serum was measurable at baseline', given: active([...dflc(['80', '80', '400', '400']), ...serum(['10'])]) },
  ],
})

testRule('pd-marrow', {
  fires: [
    {
      why: 'on 10 points',
      given: active([], {
        marrow: [
          ['2024-06-01', '30'],
          ['2024-09-01', '40'],
        ],
      }),
      shows: slow,
    },
    {
      why: 'on 25 % where that is more',
      given: active([], {
        marrow: [
          ['2024-06-01', '60'],
          ['2024-09-01', '75'],
          ['2024-10-01', '76'],
        ],
      }),
      shows: sure,
    },
  ],
  quiet: [
    {
      why: 'a step below 10 points',
      given: active([], {
        marrow: [
          ['2024-06-01', '30'],
          ['2024-09-01', '39'],
        ],
      }),
    },
    {
      why: 'a step below 25 %',
      given: active([], {
        marrow: [
          ['2024-06-01', '60'],
          ['2024-09-01', '74'],
        ],
      }),
    },
    {
      why: 'measurable by serum',
      given: active(serum(['10']), {
        marrow: [
          ['2024-06-01', '30'],
          ['2024-09-01', '60'],
        ],
      }),
    },
  ],
})

const cells = (share: string[], white: string[]) => [
  ...every4Weeks('circulating-plasma-cells', '%', share),
  ...every4Weeks('white-cells', '10*9/L', white),
]
testRule('pd-circulating', {
  fires: [
    { why: '200 per uL and 50 % more', given: active(cells(['4', '6'], ['10', '10'])), shows: slow },
    { why: 'twice in a row', given: active(cells(['4', '6', '6'], ['10', '10', '10'])), shows: sure },
  ],
  quiet: [
    { why: 'a step below 200 per uL', given: active(cells(['4', '5.99'], ['10', '10'])) },
    { why: 'a step below 50 %', given: active(cells(['10', '14.9'], ['10', '10'])) },
    { why: 'no white cells to count by', given: active(every4Weeks('circulating-plasma-cells', '%', ['4', '12'])) },
    { why: 'serum measures the disease', given: active([...serum(['10']), ...cells(['4', '9'], ['10', '10'])]) },
  ],
})

testRule('pd-lesion', {
  fires: [
    {
      why: 'one new lesion',
      given: active([], { imaging: [['2024-09-01', 'pet-ct', { newLesions: 1 }]] }),
      shows: { state: 'met', window: 'within-7-days' },
    },
    { why: 'growth on 50 %', given: active([], { imaging: [['2024-09-01', 'ct', { growth: '50' }]] }), shows: { state: 'met' } },
    { why: 'growth above', given: active([], { imaging: [['2024-09-01', 'ct', { growth: '51' }]] }), shows: { state: 'met' } },
  ],
  quiet: [
    { why: 'growth a step below 50 %', given: active([], { imaging: [['2024-09-01', 'ct', { growth: '49.9', newLesions: 0 }]] }) },
    { why: 'before the line began', given: active([], { imaging: [['2024-05-01', 'ct', { newLesions: 2 }]] }) },
    {
      why: 'the latest imaging shows none',
      given: active([], {
        imaging: [
          ['2024-09-01', 'ct', { newLesions: 1 }],
          ['2024-12-01', 'ct', { newLesions: 0 }],
        ],
      }),
    },
  ],
})
