import { expect, test } from 'vitest'
import { assessResponse, bestResponse } from '../../lib/models/index.ts'
import { type HistoryWords, type ResultRow, series } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'

const START = '2020-01-01'
const months = (...values: string[]): Record<string, string> =>
  Object.fromEntries(values.map((value, at) => [`2020-${String(at + 1).padStart(2, '0')}-01`, value]))
const serum = (...values: string[]) => series('serum-m-protein', 'g/L', months(...values))
const urine = (...values: string[]) => series('urine-m-protein', 'mg/(24.h)', months(...values))
const chains = (...values: string[]) => [
  ...series('lambda-flc', 'mg/L', months(...values)),
  ...series('kappa-flc', 'mg/L', months(...values.map(() => '10'))),
]

const words = (results: readonly ResultRow[], more: HistoryWords = {}): HistoryWords => ({
  diagnosis: [START, 'active', { heavy: 'G', light: 'lambda' }],
  lines: [{ start: START }],
  results,
  ...more,
})
const response = (results: readonly ResultRow[], more: HistoryWords = {}) => assessResponse(courseOf(words(results, more)))

// Case 18 of the specification; criteria of IMWG 2016 (Kumar, Lancet Oncol 17:e328).
test.each([
  ['30.1', 'SD'],
  ['30', 'MR'],
  ['20.2', 'MR'],
  ['20.0', 'PR'],
  ['4.1', 'PR'],
  ['4.0', 'VGPR'],
])('case 18: 40 g/L to %s without urine is %s, provisional', (current, category) => {
  expect(response(serum('40', current))).toEqual({ category, state: 'unconfirmed', provisional: true, missing: ['urine not collected'] })
})

test('in g/dL the same', () => {
  const at = (value: string) => response(series('serum-m-protein', 'g/dL', months('4.0', value))).category
  expect([at('2.02'), at('2.00'), at('0.41'), at('0.40')]).toEqual(['MR', 'PR', 'PR', 'VGPR'])
})

test('urine that was not measurable at baseline is not needed', () => {
  expect(response([...serum('40', '20'), ...urine('199')])).toEqual({ category: 'PR', state: 'unconfirmed', provisional: false, missing: [] })
})

test.each([
  ['2000', '4', '100', 'PR'],
  ['2000', '4', '99', 'VGPR'],
  ['2000', '20', '200', 'PR'],
  ['2000', '20', '201', 'MR'],
  ['3000', '20', '300', 'PR'],
  ['3000', '20', '301', 'MR'],
  ['2000', '20', '1000', 'MR'],
  ['2000', '20', '1001', 'SD'],
  ['2000', '30', '99', 'MR'],
  ['2000', '30.1', '99', 'SD'],
])('urine %s: serum 40 to %s and urine to %s is %s', (before, serumNow, urineNow, category) => {
  expect(response([...serum('40', serumNow), ...urine(before, urineNow)])).toMatchObject({ category, provisional: false })
})

test('two assessments in a row confirm, the better of them unconfirmed', () => {
  const unmeasurable = urine('0')
  expect(response([...serum('40', '20', '19'), ...unmeasurable])).toMatchObject({ category: 'PR', state: 'confirmed' })
  expect(response([...serum('40', '20', '4'), ...unmeasurable])).toMatchObject({ category: 'VGPR', state: 'unconfirmed' })
  expect(response([...serum('40', '4', '8'), ...unmeasurable])).toMatchObject({ category: 'PR', state: 'confirmed' })
})

test('a value below a limit counts where all it may be does', () => {
  expect(response([...serum('40', '<4'), ...urine('0')]).category).toBe('VGPR')
  expect(response([...serum('40', '<5'), ...urine('0')]).category).toBe('PR')
})

test('a protein that is there without a number gives no category by fall', () => {
  expect(response([...serum('40', '4', 'trace'), ...urine('0')])).toMatchObject({ category: null, missing: ['serum M-protein not quantified'] })
})

test.each([
  ['10', '14.9', 'PR'],
  ['10', '15', 'PD'],
])('progression from the lowest: %s to %s is %s', (low, now, category) => {
  expect(response([...serum('40', low, low, now), ...urine('0')]).category).toBe(category)
})

test('progression seen twice is confirmed; against a lowest value seen once it is not', () => {
  expect(response([...serum('40', '10', '10', '15'), ...urine('0')]).state).toBe('unconfirmed')
  expect(response([...serum('40', '10', '10', '15', '15'), ...urine('0')]).state).toBe('confirmed')
  expect(response([...serum('40', '10', '14', '16', '16'), ...urine('0')])).toMatchObject({ category: 'PD', state: 'unconfirmed' })
  expect(response([...serum('60', '50', '50', '60', '60'), ...urine('0')])).toMatchObject({ category: 'PD', state: 'confirmed' })
})

test('a new lesion is progression', () => {
  expect(response([...serum('40', '20'), ...urine('0')], { imaging: [['2020-02-01', 'ct', { newLesions: 1 }]] })).toMatchObject({
    category: 'PD',
    state: 'confirmed',
  })
  expect(response([...serum('40', '20'), ...urine('0')], { imaging: [['2020-02-01', 'ct', { growth: '49' }]] }).category).toBe('PR')
})

test('a scan that records no lesions does not end what an earlier one showed', () => {
  const seen = (later: { newLesions?: number; lytic?: number }) =>
    response([...serum('40', '20'), ...urine('0')], {
      imaging: [
        ['2020-02-01', 'ct', { newLesions: 1 }],
        ['2020-02-15', 'mri', later],
      ],
    }).category
  expect(seen({ lytic: 2 })).toBe('PD')
  expect(seen({ newLesions: 0 })).toBe('PR')
})

// Where marrow alone is measurable: a rise of at least 25 % and 10 points from the lowest value (IMWG 2016).
test.each([
  ['10', '19', 'PR', 'confirmed'],
  ['10', '20', 'PD', 'unconfirmed'],
  ['40', '49', 'SD', 'confirmed'],
  ['40', '50', 'PD', 'unconfirmed'],
])('only marrow: from 40 to %s and then to %s per cent is %s, %s', (lowest, now, category, state) => {
  const marrow: HistoryWords['marrow'] = [
    [START, '40'],
    ['2020-03-01', lowest],
    ['2020-06-01', now],
  ]
  expect(response([...serum('3'), ...urine('0')], { marrow })).toMatchObject({ category, state })
})

test('only marrow: progression seen twice is confirmed', () => {
  const marrow: HistoryWords['marrow'] = [
    [START, '40'],
    ['2020-03-01', '10'],
    ['2020-06-01', '10'],
    ['2020-09-01', '20'],
    ['2020-12-01', '20'],
  ]
  expect(response([...serum('3'), ...urine('0')], { marrow })).toMatchObject({ category: 'PD', state: 'confirmed' })
})

test('a marrow does not make progression where serum measures the disease', () => {
  const marrow: HistoryWords['marrow'] = [
    [START, '40'],
    ['2020-02-01', '10'],
    ['2020-02-15', '60'],
  ]
  expect(response([...serum('40', '20'), ...urine('0')], { marrow }).category).toBe('PR')
})

// Light-chain-only disease: PR from IMWG 2016; the 90 % of VGPR from memory.
test.each([
  ['1000', '505', 'PR'],
  ['1000', '506', 'SD'],
  ['1000', '109', 'VGPR'],
  ['1000', '110', 'PR'],
])('lambda %s to %s (kappa 10) is %s', (before, now, category) => {
  expect(response([...serum('0'), ...urine('0'), ...chains(before, now)])).toMatchObject({ category, missing: [] })
})

test.each([
  ['30', '15', 'PR'],
  ['30', '16', 'SD'],
  ['29', '5', null],
])('only marrow: %s %% to %s %%', (before, now, category) => {
  expect(
    response([...serum('3'), ...urine('0')], {
      marrow: [
        [START, before],
        ['2020-03-01', now],
      ],
    }).category,
  ).toBe(category)
})

const negative = (on: string): ResultRow[] => [
  [on, 'serum-immunofixation', 'negative'],
  [on, 'urine-immunofixation', 'negative'],
]
const gone = [...serum('40', 'not detected', 'not detected'), ...urine('500', '0', '0')]

test('complete response: negative in serum and urine with fewer than 5 % in the marrow', () => {
  const all = [...gone, ...negative('2020-02-01'), ...negative('2020-03-01')]
  expect(response(all, { marrow: [['2020-02-01', '4']] })).toEqual({ category: 'CR', state: 'confirmed', provisional: false, missing: [] })
  expect(response(all, { marrow: [['2020-02-01', '5']] }).category).toBe('VGPR')
  expect(response(all)).toEqual({ category: 'VGPR', state: 'confirmed', provisional: true, missing: ['marrow not examined'] })
  expect(response([...gone, ...negative('2020-03-01')], { marrow: [['2020-02-01', '4']] })).toMatchObject({ category: 'CR', state: 'unconfirmed' })
})

test('stringent: besides, a normal ratio and no residual disease', () => {
  const all = [...gone, ...negative('2020-02-01'), ...negative('2020-03-01')]
  const clear: HistoryWords = { marrow: [['2020-02-01', '1', { mrd: 'negative' }]] }
  expect(response([...all, ...chains('10', '10', '10')], clear).category).toBe('sCR')
  expect(response([...all, ...chains('10', '10', '100')], clear).category).toBe('CR')
  expect(response(all, clear).category).toBe('CR')
})

test('what is missing for a complete response is named', () => {
  expect(response([...serum('40', 'not detected'), ...urine('0')])).toEqual({
    category: 'VGPR',
    state: 'unconfirmed',
    provisional: true,
    missing: ['serum immunofixation not done', 'urine immunofixation not done', 'marrow not examined'],
  })
})

test('a positive immunofixation is no complete response, and lacks nothing', () => {
  const positive: ResultRow = ['2020-02-01', 'serum-immunofixation', 'IgG lambda']
  expect(response([...serum('40', 'not detected'), ...urine('0'), positive])).toMatchObject({ category: 'VGPR', provisional: false, missing: [] })
})

test('an old negative immunofixation does not stand against a protein measured later', () => {
  const back = [...serum('40', 'not detected', '3'), ...urine('0'), ...negative('2020-02-01')]
  expect(response(back, { marrow: [['2020-02-01', '1']] })).toMatchObject({ category: 'VGPR', missing: [] })
})

test.each<[string, HistoryWords, string]>([
  ['no phase', {}, 'no active disease recorded'],
  ['no line', { diagnosis: [START, 'active'] }, 'no treatment line recorded'],
  ['no baseline', words([]), 'no measurable disease at the baseline of the line'],
  ['baseline only', words(serum('40')), 'no sample since the baseline'],
])('nothing can be said: %s', (_name, given, why) => {
  expect(assessResponse(courseOf(given))).toEqual({ category: null, state: null, provisional: false, missing: [why] })
})

test('best response looks at every day up to the one before the latest', () => {
  const best = (results: readonly ResultRow[]) => bestResponse(courseOf(words([...results, ...urine('0')], { marrow: [['2020-02-01', '1']] })))
  expect(best(serum('40'))).toBe(null)
  expect(best(serum('40', '20', '4'))).toBe('PR')
  expect(best(serum('40', '4', '20', '30'))).toBe('VGPR')
  expect(best([...serum('40', 'not detected'), ...negative('2020-02-01'), ['2020-03-01', 'serum-immunofixation', 'IgG lambda']])).toBe('CR')
})
