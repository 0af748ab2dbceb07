import { expect, test } from 'vitest'
import { courseOf, shownInterval } from './shown.ts'

const serum = (...rows: Parameters<typeof courseOf>[0]['results'] & {}) =>
  courseOf({ results: rows })
    .samplesOf('serum-m-protein')
    .map((sample) => `${sample.on} ${shownInterval(sample.value) ?? sample.words}`)

test('two results of one day are one sample: the later collection moment counts', () => {
  expect(
    serum(
      ['2020-01-01T18:00:00Z', 'serum-m-protein', '12'],
      ['2020-01-01T08:00:00Z', 'serum-m-protein', '11'],
      ['2020-02-01', 'serum-m-protein', '10'],
    ),
  ).toEqual(['2020-01-01 12', '2020-02-01 10'])
})

test('of two results of one moment the higher accession counts, then the text', () => {
  expect(
    serum(['2020-01-01', 'serum-m-protein', '11', 'g/L', { accession: 'B' }], ['2020-01-01', 'serum-m-protein', '12', 'g/L', { accession: 'A' }]),
  ).toEqual(['2020-01-01 11'])
  expect(serum(['2020-01-01', 'serum-m-protein', '11'], ['2020-01-01', 'serum-m-protein', '12'])).toEqual(['2020-01-01 12'])
  expect(serum(['2020-01-01', 'serum-m-protein', '12'], ['2020-01-01', 'serum-m-protein', '11'])).toEqual(['2020-01-01 12'])
})

test('a withdrawn result and a result without a value are no sample', () => {
  expect(
    serum(
      ['2020-01-01', 'serum-m-protein', '11', 'g/L', { status: 'entered-in-error' }],
      ['2020-02-01', 'serum-m-protein', '12', 'g/L', { status: 'cancelled' }],
      ['2020-03-01', 'serum-m-protein', 'haemolysed'],
      ['2020-04-01', 'serum-m-protein', '13', 'g/L', { status: 'corrected' }],
    ),
  ).toEqual(['2020-04-01 13'])
})

test('a value of the day stands beside a later one that was haemolysed', () => {
  expect(serum(['2020-01-01T08:00:00Z', 'serum-m-protein', '11'], ['2020-01-01T18:00:00Z', 'serum-m-protein', 'haemolysed'])).toEqual([
    '2020-01-01 11',
  ])
})

test('words: not detected is 0, trace has no number unless the report names its limit', () => {
  expect(
    serum(
      ['2020-01-01', 'serum-m-protein', 'not detected'],
      ['2020-02-01', 'serum-m-protein', 'trace'],
      ['2020-03-01', 'serum-m-protein', 'trace', 'g/L', { upTo: '0.5' }],
      ['2020-04-01', 'serum-m-protein', '<1'],
      ['2020-05-01', 'serum-m-protein', '>60'],
    ),
  ).toEqual(['2020-01-01 0', '2020-02-01 trace', '2020-03-01 [0, 0.5]', '2020-04-01 [0, 1]', '2020-05-01 [60, ...'])
})

test('an unquantified sample is a sample, and no measurement of the marker', () => {
  const course = courseOf({
    results: [
      ['2020-01-01', 'serum-m-protein', 'trace'],
      ['2020-02-01', 'serum-m-protein', '3'],
    ],
  })
  expect(course.samplesOf('serum-m-protein')).toHaveLength(2)
  expect(course.markers['serum-m-protein'].samples.map((sample) => sample.on)).toEqual(['2020-02-01'])
})

test('what is collected after today does not exist', () => {
  const words = {
    results: [
      ['2020-01-01', 'serum-m-protein', '3'],
      ['2020-02-01', 'serum-m-protein', '4'],
    ] as const,
  }
  expect(courseOf(words, '2020-01-31').samplesOf('serum-m-protein')).toHaveLength(1)
  expect(courseOf(words, '2020-02-01').samplesOf('serum-m-protein')).toHaveLength(2)
  expect(courseOf(words, '2019-12-31').hasResults).toBe(false)
})
