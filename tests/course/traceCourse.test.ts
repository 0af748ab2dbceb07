import { expect, test } from 'vitest'
import { courseOf, shownInterval } from './shown.ts'

test('phases, each with the day it began', () => {
  const words = {
    diagnosis: ['2015-01-01', 'mgus'] as const,
    phases: [
      ['2020-01-01', 'active'],
      ['2018-01-01', 'smouldering'],
      ['2021-01-01', 'active'],
    ] as const,
  }
  expect(courseOf(words).phases).toEqual([
    { phase: 'mgus', since: '2015-01-01' },
    { phase: 'smouldering', since: '2018-01-01' },
    { phase: 'active', since: '2020-01-01' },
  ])
  expect(courseOf(words, '2019-01-01').phase).toEqual({ phase: 'smouldering', since: '2018-01-01' })
  expect(courseOf(words).diagnosedOn).toBe('2015-01-01')
  expect(courseOf({}).phase).toBe(null)
})

test.each([
  ['no line', [], 'off-treatment'],
  ['a running line', [{ start: '2020-02-01', intent: 'induction' }], 'on-treatment'],
  [
    'running maintenance',
    [
      { start: '2020-02-01', end: '2020-08-01' },
      { start: '2020-09-01', intent: 'maintenance' },
    ],
    'maintenance',
  ],
  ['an ended line', [{ start: '2020-02-01', end: '2020-08-01' }], 'off-treatment'],
] as const)('care: %s', (_name, lines, expected) => {
  expect(courseOf({ diagnosis: ['2020-01-01', 'active'], lines }).care).toBe(expected)
})

test('care is of active disease only', () => {
  expect(courseOf({ diagnosis: ['2020-01-01', 'smouldering'], lines: [{ start: '2020-02-01' }] }).care).toBe(null)
  expect(courseOf({ diagnosis: ['2020-01-01', 'amyloidosis'], lines: [{ start: '2020-02-01' }] }).care).toBe('on-treatment')
})

test('a line that ends later is still running today', () => {
  const words = { diagnosis: ['2020-01-01', 'active'] as const, lines: [{ start: '2020-02-01', end: '2020-08-01' }] }
  expect(courseOf(words, '2020-07-31').line?.end).toBe(null)
  expect(courseOf(words, '2020-08-01').line?.end).toBe('2020-08-01')
})

test('starts under one number are one line', () => {
  const lines = [
    { number: 1, start: '2020-02-01', regimen: ['bortezomib'] },
    { number: 1, start: '2020-04-01', regimen: ['lenalidomide'] },
  ]
  expect(courseOf({ diagnosis: ['2020-01-01', 'active'], lines }).lines).toEqual([
    { number: 1, start: '2020-02-01', end: null, regimen: ['lenalidomide'], intent: null },
  ])
})

test.each([
  ['followed', {}, null],
  ['a recorded leaving', { left: ['2021-01-01', 'died'] as const }, '2021-01-01'],
  ['a status with its day', { status: ['transferred', '2021-03-01'] as const }, '2021-03-01'],
  ['both: the earlier', { left: ['2021-01-01', 'died'] as const, status: ['died', '2021-03-01'] as const }, '2021-01-01'],
  ['followed again later', { left: ['2021-01-01', 'transferred'] as const, status: ['followed', '2022-01-01'] as const }, null],
])('left: %s', (_name, words, expected) => {
  expect(courseOf(words).leftOn).toBe(expected)
})

test('a leaving after today has not happened', () => {
  expect(courseOf({ status: ['died', '2021-03-01'] }, '2021-02-28').leftOn).toBe(null)
})

test('marrow of one day from event and laboratory: the higher percentage, all abnormalities', () => {
  const { marrow } = courseOf({
    marrow: [
      ['2020-01-01', '12', { abnormalities: ['t(4;14)'] }],
      ['2020-01-01', '15', { mrd: 'negative' }],
    ],
    results: [
      ['2020-01-01', 'marrow-plasma-cells', '14'],
      ['2021-01-01', 'marrow-plasma-cells', '<5'],
    ],
  })
  expect(marrow.map((sample) => [sample.on, shownInterval(sample.percent), sample.abnormalities, sample.mrd])).toEqual([
    ['2020-01-01', '15', ['t(4;14)'], 'negative'],
    ['2021-01-01', '[0, 5]', [], null],
  ])
})

test('rows still held are part of the course', () => {
  expect(courseOf({ held: [['2020-01-02', '2020-01-01']] }).held).toEqual([{ id: 1, receivedOn: '2020-01-02', collectedOn: '2020-01-01' }])
})
