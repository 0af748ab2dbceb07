import { describe, expect, test } from 'vitest'
import { immunofixationReadings, readAs, readingMeans } from '../../lib/rules/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'

type Texts = Readonly<Record<string, string>>
const rows = (specimen: 'serum' | 'urine', texts: Texts) =>
  Object.entries(texts).map(([on, text]) => [on, `${specimen}-immunofixation`, text] as const)
const course = (serum: Texts, urine: Texts = {}, more: HistoryWords = {}) =>
  courseOf({
    diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
    lines: [{ start: '2024-01-05' }],
    results: [...rows('serum', serum), ...rows('urine', urine)],
    ...more,
  })

/** "day specimen: read as | what each band is". */
const shown = (serum: Texts, urine: Texts = {}, more: HistoryWords = {}) =>
  immunofixationReadings(course(serum, urine, more)).map(
    (read) =>
      `${read.on} ${read.specimen}: ${readAs(read)} | ${read.bands.map(({ meaning, antibody }) => [meaning, antibody?.drug].filter(Boolean).join(' ')).join(', ')}`,
  )

test('every immunofixation stands there, newest first, with its text as received', () => {
  const read = immunofixationReadings(
    course(
      { '2024-02-01': 'IgG kappa', '2024-03-01': 'Probable IgG κ, see comment in report', '2024-04-01': 'NEGATIVE.' },
      { '2024-03-01': 'cannot exclude' },
    ),
  )
  expect(read.map(({ on, specimen, text, reading }) => [on, specimen, text, reading])).toEqual([
    ['2024-04-01', 'serum', 'NEGATIVE.', 'negative'],
    ['2024-03-01', 'serum', 'Probable IgG κ, see comment in report', 'unread'],
    ['2024-03-01', 'urine', 'cannot exclude', 'cannot-exclude'],
    ['2024-02-01', 'serum', 'IgG kappa', 'positive'],
  ])
})

describe('what a band is against IgG kappa at diagnosis', () => {
  test.each([
    ['IgG kappa', 'original'],
    ['IgA kappa', 'other'],
    ['IgG lambda', 'other'],
    ['free lambda', 'other'],
    ['IgG', 'not-known'],
    ['IgA', 'other'],
    ['free kappa', 'light-alone'],
  ])('%s in serum: %s', (text, meaning) => {
    expect(immunofixationReadings(course({ '2024-03-01': text }))[0]?.bands.map((band) => band.meaning)).toEqual([meaning])
  })

  test('each of two bands is judged by itself', () => {
    expect(shown({ '2024-03-01': 'IgG kappa and IgA lambda' })).toEqual(['2024-03-01 serum: 2 bands: IgG kappa; IgA lambda | original, other'])
    expect(shown({ '2024-03-01': 'IgG kappa with free kappa' })).toEqual([
      '2024-03-01 serum: 2 bands: IgG kappa; free kappa | original, light-beside',
    ])
  })

  test.each<[string, Texts, string]>([
    ['while serum shows the whole protein', { '2024-02-01': 'IgG kappa' }, 'light-beside'],
    ['serum is negative', { '2024-02-01': 'negative' }, 'light-alone'],
    ['serum was never fixed', {}, 'light-alone'],
    ['a later serum shows it, before any other urine', { '2024-02-01': 'negative', '2024-03-05': 'IgG kappa' }, 'light-beside'],
    ['serum that could not be read says nothing', { '2024-02-01': 'IgG kappa', '2024-02-20': 'see below' }, 'light-beside'],
  ])('free kappa in urine, %s', (_, serum, meaning) => {
    const urine = immunofixationReadings(course(serum, { '2024-03-01': 'free kappa' })).find(({ specimen }) => specimen === 'urine')
    expect(urine?.bands.map((band) => band.meaning)).toEqual([meaning])
  })

  test('light-chain disease: the free chain is the original; no type at diagnosis: nothing is guessed', () => {
    expect(shown({ '2024-03-01': 'free kappa' }, {}, { diagnosis: ['2024-01-01', 'active', { heavy: 'none', light: 'kappa' }] })).toEqual([
      '2024-03-01 serum: free kappa | original',
    ])
    expect(shown({ '2024-03-01': 'IgG kappa' }, {}, { diagnosis: ['2024-01-01', 'active'] })).toEqual(['2024-03-01 serum: IgG kappa | not-known'])
  })
})

describe('a therapeutic antibody', () => {
  const on = (drug: string, end?: string): HistoryWords => ({
    lines: [{ start: '2024-01-05', regimen: [drug, 'dexamethasone'], ...(end === undefined ? {} : { end }) }],
  })

  test.each([
    ['a new IgG kappa band on it', { '2024-02-01': 'negative', '2024-03-01': 'IgG kappa' }, on('Daratumumab'), 'original daratumumab'],
    ['isatuximab', { '2024-02-01': 'negative', '2024-03-01': 'IgG kappa' }, on('isatuximab'), 'original isatuximab'],
    ['elotuzumab', { '2024-02-01': 'negative', '2024-03-01': 'IgG kappa' }, on('elotuzumab'), 'original elotuzumab'],
    ['a faint one that never went', { '2024-03-01': 'faint IgG kappa' }, on('daratumumab'), 'original daratumumab'],
    ['one that never went and is not faint', { '2024-02-01': 'IgG kappa', '2024-03-01': 'IgG kappa' }, on('daratumumab'), 'original'],
    ['another type', { '2024-02-01': 'negative', '2024-03-01': 'IgG lambda' }, on('daratumumab'), 'other'],
    ['another drug', { '2024-02-01': 'negative', '2024-03-01': 'IgG kappa' }, on('carfilzomib'), 'original'],
    ['6 months after it', { '2024-02-01': 'negative', '2024-08-10': 'IgG kappa' }, on('daratumumab', '2024-02-10'), 'original daratumumab'],
    ['a day later', { '2024-02-01': 'negative', '2024-08-11': 'IgG kappa' }, on('daratumumab', '2024-02-10'), 'original'],
  ])('%s', (_, serum, more, expected) => {
    expect(shown(serum as Texts, {}, more)[0]?.split(' | ')[1]).toBe(expected)
  })

  test('it is named with the line it was given in', () => {
    const [read] = immunofixationReadings(course({ '2024-02-01': 'negative', '2024-03-01': 'IgG kappa' }, {}, on('daratumumab')))
    expect(read === undefined ? [] : readingMeans(read)).toEqual([
      'IgG kappa: the original protein; may be the therapeutic antibody (daratumumab, in the line begun 2024-01-05).',
    ])
  })
})

test('two bands of one kind are told once', () => {
  const [read] = immunofixationReadings(course({ '2024-03-01': 'IgG kappa and IgG kappa' }))
  expect(read === undefined ? [] : [readAs(read), ...readingMeans(read)]).toEqual([
    '2 bands: IgG kappa; IgG kappa',
    'IgG kappa: the original protein.',
  ])
})

test('what was not read is said to be a matter for a person', () => {
  const [read] = immunofixationReadings(course({ '2024-03-01': 'IgG kappa no longer seen' }))
  expect(read === undefined ? [] : [readAs(read), ...readingMeans(read)]).toEqual([
    'not read',
    'Not understood, so no rule counts it: a person must read it.',
  ])
})
