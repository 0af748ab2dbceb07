import { active, every4Weeks, smouldering } from './patients.ts'
import { testRule } from './ruleTable.ts'

const lightChains = (kappa: string[], lambda: string[], unit = 'mg/L') => [
  ...every4Weeks('kappa-flc', unit, kappa),
  ...every4Weeks('lambda-flc', unit, lambda),
]
const met = { state: 'met', window: 'within-7-days' } as const

testRule('mde-marrow', {
  fires: [
    { why: 'on 60 %', given: smouldering([], { marrow: [['2024-06-01', '60']] }), shows: { ...met, cautions: [] } },
    { why: 'one step above', given: smouldering([], { marrow: [['2024-06-01', '61']] }), shows: met },
    { why: 'as a laboratory reported it', given: smouldering([['2024-06-03', 'marrow-plasma-cells', '60', '%']]), shows: met },
  ],
  quiet: [
    { why: 'one step below', given: smouldering([], { marrow: [['2024-06-01', '59']] }) },
    { why: 'no percentage was given', given: smouldering([], { marrow: [['2024-06-01', null]] }) },
    {
      why: 'the latest marrow is below',
      given: smouldering([], {
        marrow: [
          ['2024-06-01', '60'],
          ['2024-09-01', '40'],
        ],
      }),
    },
    { why: 'active disease', given: active([], { marrow: [['2024-06-01', '60']] }) },
  ],
})

testRule('mde-mri', {
  fires: [
    { why: 'two lesions of 5 mm', given: smouldering([], { imaging: [['2024-06-01', 'mri', { focal5mm: 2 }]] }), shows: met },
    { why: 'three', given: smouldering([], { imaging: [['2024-06-01', 'mri', { focal5mm: 3 }]] }), shows: met },
  ],
  quiet: [
    { why: 'one lesion, however large', given: smouldering([], { imaging: [['2024-06-01', 'mri', { focal5mm: 1 }]] }) },
    { why: 'none', given: smouldering([], { imaging: [['2024-06-01', 'mri', { focal5mm: 0 }]] }) },
    { why: 'CT does not count here', given: smouldering([], { imaging: [['2024-06-01', 'ct', { focal5mm: 2 }]] }) },
  ],
})

testRule('mde-bone', {
  fires: [
    { why: 'one lesion on CT, marrow not known', given: smouldering([], { imaging: [['2024-06-01', 'ct', { lytic: 1 }]] }), shows: met },
    {
      why: 'one lesion, marrow on 10 %',
      given: smouldering([], { imaging: [['2024-06-01', 'pet-ct', { lytic: 1 }]], marrow: [['2024-05-20', '10']] }),
      shows: met,
    },
    {
      why: 'two lesions, marrow 9 %',
      given: smouldering([], { imaging: [['2024-06-01', 'xray', { lytic: 2 }]], marrow: [['2024-05-20', '9']] }),
      shows: met,
    },
  ],
  quiet: [
    { why: 'one lesion, marrow 9 %', given: smouldering([], { imaging: [['2024-06-01', 'xray', { lytic: 1 }]], marrow: [['2024-05-20', '9']] }) },
    { why: 'no lesion', given: smouldering([], { imaging: [['2024-06-01', 'ct', { lytic: 0 }]] }) },
    {
      why: 'the latest imaging shows none',
      given: smouldering([], {
        imaging: [
          ['2024-06-01', 'ct', { lytic: 2 }],
          ['2024-09-01', 'ct', { lytic: 0 }],
        ],
      }),
    },
  ],
})

testRule('mde-light-chain', {
  fires: [
    {
      why: 'involved on 100 and ratio on 100',
      given: smouldering(lightChains(['100'], ['1.0'])),
      shows: { state: 'unconfirmed', window: 'within-7-days' },
    },
    { why: 'one step above both', given: smouldering(lightChains(['101'], ['1.0'])), shows: { state: 'unconfirmed' } },
    { why: 'in mg/dL: 10 and 0.1', given: smouldering(lightChains(['10'], ['0.1'], 'mg/dL')), shows: { state: 'unconfirmed' } },
    { why: 'two in a row confirm', given: smouldering(lightChains(['150', '160'], ['1.0', '1.0'])), shows: { state: 'confirmed' } },
    {
      why: 'uninvolved below a limit that leaves the ratio at least 100',
      given: smouldering(lightChains(['150'], ['<1.5'])),
      shows: { certainty: 'certain', cautions: ['one-sample', 'censored'] },
    },
    {
      why: 'uninvolved below a limit that leaves both open',
      given: smouldering(lightChains(['150'], ['<1.6'])),
      shows: { certainty: 'possible', window: 'within-30-days' },
    },
  ],
  quiet: [
    { why: 'involved one step below 100', given: smouldering(lightChains(['99'], ['0.5'])) },
    { why: 'involved 9.9 mg/dL', given: smouldering(lightChains(['9.9'], ['0.05'], 'mg/dL')) },
    { why: 'ratio one step below 100', given: smouldering(lightChains(['100'], ['1.01'])) },
    {
      why: 'involved chain not known and ratio not abnormal',
      given: { diagnosis: ['2024-06-01', 'smouldering'], results: lightChains(['10'], ['10']) },
    },
  ],
})
