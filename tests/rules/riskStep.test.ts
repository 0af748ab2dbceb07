import { expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import { riskOverTime } from '../../lib/models/index.ts'
import { says } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { active, mgus, on, smouldering } from './patients.ts'
import { currentBy, foundBy, testRule } from './ruleTable.ts'

const [first, second, third] = ['2024-06-03', '2024-12-03', '2025-02-03'] as const
const today = '2025-02-10'
const serum = (values: readonly string[], unit = 'g/L') =>
  values.flatMap((value, at) => on('serum-m-protein', unit, { [[first, second, third][at] ?? '']: value }))
const chains = (...pairs: readonly (readonly [kappa: string, lambda: string])[]) =>
  pairs.flatMap(([kappa, lambda], at) => {
    const when = [first, second, third][at] ?? ''
    return [...on('kappa-flc', 'mg/L', { [when]: kappa }), ...on('lambda-flc', 'mg/L', { [when]: lambda })]
  })
const met = { state: 'met', window: 'within-30-days', certainty: 'certain', cautions: [] } as const

// Rajkumar 2005, Blood 106:812; Mateos 2020, Blood Cancer J 10:102.
testRule('risk-step', {
  fires: [
    { why: 'MGUS: M-protein on 15 g/L', given: mgus(serum(['10', '15'])), today, shows: { ...met, since: second } },
    { why: 'a step above', given: mgus(serum(['10', '15.1'])), today, shows: met },
    { why: 'on 1.5 g/dL', given: mgus(serum(['1.0', '1.5'], 'g/dL')), today, shows: met },
    { why: 'MGUS: a ratio a step above its interval', given: mgus(chains(['16.5', '10'], ['16.6', '10'])), today, shows: met },
    { why: 'smouldering: M-protein a step above 20 g/L', given: smouldering(serum(['15', '20.1'])), today, shows: met },
    { why: 'a step above 2 g/dL', given: smouldering(serum(['1.5', '2.1'], 'g/dL')), today, shows: met },
    { why: 'smouldering: involved ratio a step above 20', given: smouldering(chains(['100', '10'], ['200.1', '10'])), today, shows: met },
    {
      why: 'smouldering: marrow a step above 20 %',
      given: smouldering([], {
        marrow: [
          [first, '15'],
          [second, '21'],
        ],
      }),
      today,
      shows: met,
    },
    {
      why: 'while it stays there, within 90 days of the first sample',
      given: smouldering(serum(['15', '25', '26'])),
      today,
      shows: { ...met, since: second },
    },
    { why: 'on the 90th day', given: smouldering(serum(['15', '25'])), today: '2025-03-03', shows: met },
    {
      why: 'by a value known only as a limit, perhaps',
      given: smouldering(serum(['15', '>19'])),
      today,
      shows: { certainty: 'possible', cautions: ['censored'] },
    },
    { why: 'many small rises are one', given: smouldering(serum(['18', '21', '22'])), today, shows: { ...met, since: third } },
    {
      why: 'one more factor at another day',
      given: smouldering([...serum(['15', '25']), ...chains(['100', '10'], ['100', '10'], ['300', '10'])]),
      today,
      shows: { ...met, since: third },
    },
  ],
  quiet: [
    { why: 'M-protein a step below 15 g/L', given: mgus(serum(['10', '14.9'])), today },
    { why: '1.4 g/dL', given: mgus(serum(['1.0', '1.4'], 'g/dL')), today },
    { why: 'a ratio on the end of its interval', given: mgus(chains(['10', '10'], ['16.5', '10'])), today },
    { why: 'M-protein on 20 g/L', given: smouldering(serum(['15', '20'])), today },
    { why: 'involved ratio on 20', given: smouldering(chains(['100', '10'], ['200', '10'])), today },
    {
      why: 'marrow on 20 %',
      given: smouldering([], {
        marrow: [
          [first, '15'],
          [second, '20'],
        ],
      }),
      today,
    },
    { why: 'a rise that noise explains: 20 % is less than 20.7 %', given: smouldering(serum(['20', '24'])), today },
    {
      why: 'an input that was not known before',
      given: smouldering([...serum(['15', '15']), ...on('kappa-flc', 'mg/L', { [second]: '500' }), ...on('lambda-flc', 'mg/L', { [second]: '5' })]),
      today,
    },
    { why: 'one factor gone, another come', given: smouldering([...serum(['25', '15']), ...chains(['100', '10'], ['300', '10'])]), today },
    { why: 'it fell back', given: smouldering(serum(['15', '25', '15'])), today },
    { why: 'after 90 days', given: smouldering(serum(['15', '25'])), today: '2025-03-04' },
    { why: 'the same limit as before says nothing new', given: smouldering(serum(['>19'])), today },
    { why: 'active disease', given: active(serum(['15', '25'])), today },
  ],
})

test('a step that has lapsed or fallen back is history, and says when', () => {
  expect(foundBy('risk-step', smouldering(serum(['15', '25'])), '2025-06-01')).toMatchObject([{ since: second, endedOn: '2025-03-04' }])
  expect(foundBy('risk-step', smouldering(serum(['15', '25', '15'])), today)).toMatchObject([{ since: second, endedOn: third }])
  const twice = smouldering([...serum(['15', '25']), ...chains(['100', '10'], ['100', '10'], ['300', '10'])])
  expect(foundBy('risk-step', twice, today)).toMatchObject([
    { since: second, endedOn: third },
    { since: third, endedOn: null },
  ])
})

test('the sentence names the factors, then and now', () => {
  const [found] = currentBy('risk-step', smouldering([...serum(['15', '25']), ...chains(['250', '10'], ['251', '10'])]), today)
  expect(found?.facts).toMatchObject({ count: '2', before: '1' })
  expect(found?.evidence.map(({ role, analyte, value }) => `${role} ${analyte} ${value}`)).toEqual([
    'reference serum-m-protein 15',
    'current serum-m-protein 25',
  ])
  expect(found?.excess).toBeCloseTo(25 / 20, 12)
  expect(found === undefined ? '' : says(found)).toBe(
    'Risk factors by 20/2/20, of those known both times: 2 since 2024-12-03, 1 on 2024-06-03. New: M-protein 25 g/L of 2024-12-03 (above 20 g/L); before: M-protein 15 g/L of 2024-06-03.',
  )
})

test('the factors over time: as known when the phase began, and on every day since on which an input was measured', () => {
  const words: HistoryWords = {
    diagnosis: ['2024-01-01', 'mgus', { heavy: 'A', light: 'kappa' }],
    phases: [['2024-06-01', 'smouldering']],
    results: [...on('serum-m-protein', 'g/L', { '2024-02-01': '15', [second]: '25' }), ...chains(['30', '10'])],
  }
  const over = riskOverTime(traceCourse(history(words), day(today)))
  expect(over?.model).toBe('20-2-20')
  expect(over?.assessments.map(({ on: at, factors }) => [at, ...factors.map(({ holds }) => holds)])).toEqual([
    ['2024-06-01', null, 'no', null],
    [first, null, 'no', 'no'],
    [second, null, 'certain', 'no'],
  ])
  expect(riskOverTime(traceCourse(history(active([])), day(today)))).toBe(null)
})
