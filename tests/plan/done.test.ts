import { expect, test } from 'vitest'
import { daysDone, type TestGroup } from '../../lib/plan/index.ts'
import type { ResultRow } from '../builders/history.ts'
import { courseOn } from './due.ts'
import { blood, immunoglobulins } from './visits.ts'

const ON = '2024-03-04'
const without = (analyte: ResultRow[1]) => blood(ON).filter((row) => row[1] !== analyte)
const done = (group: TestGroup, results: readonly ResultRow[]) => daysDone(courseOn({ results }, '2024-06-01'), group)

test.each([
  ['serum-m-protein', 'serum-m-protein'],
  ['free-light-chains', 'kappa-flc'],
  ['free-light-chains', 'lambda-flc'],
  ['blood-count', 'haemoglobin'],
  ['blood-count', 'platelets'],
  ['blood-count', 'neutrophils'],
  ['chemistry', 'creatinine'],
  ['chemistry', 'calcium'],
] as const)('%s is done by a whole sample, and not without %s', (group, analyte) => {
  expect(done(group, blood(ON))).toEqual([ON])
  expect(done(group, without(analyte))).toEqual([])
  expect(done(group, [...without(analyte), [ON, analyte, 'haemolysed']])).toEqual([])
  expect(done(group, [...without(analyte), ['2024-03-05', analyte, '5']])).toEqual(analyte === 'serum-m-protein' ? ['2024-03-05'] : [])
})

test.each(['not detected', 'trace', '<1', '12'])('serum M-protein "%s" is a value', (value) => {
  expect(done('serum-m-protein', [[ON, 'serum-m-protein', value]])).toEqual([ON])
  expect(done('urine-24h', [[ON, 'urine-m-protein', value]])).toEqual([ON])
})

test.each(['pending', 'QNS', 'see comment'])('serum M-protein "%s" is none', (value) => {
  expect(done('serum-m-protein', [[ON, 'serum-m-protein', value]])).toEqual([])
})

test('immunoglobulins ask for all three; a withdrawn result does not count', () => {
  expect(done('immunoglobulins', immunoglobulins(ON))).toEqual([ON])
  expect(done('immunoglobulins', immunoglobulins(ON).slice(1))).toEqual([])
  expect(done('serum-m-protein', [[ON, 'serum-m-protein', '12', 'g/L', { status: 'entered-in-error' }]])).toEqual([])
})

test('imaging of any kind does imaging, once a day', () => {
  const course = courseOn(
    {
      imaging: [
        ['2024-05-01', 'mri'],
        ['2023-05-01', 'ct'],
        ['2024-05-01', 'pet-ct'],
      ],
    },
    '2024-06-01',
  )
  expect(daysDone(course, 'imaging')).toEqual(['2023-05-01', '2024-05-01'])
})

test('days come earliest first, whatever the order of the results', () => {
  expect(done('chemistry', [...blood('2024-05-01'), ...blood('2024-03-01'), ...blood('2024-04-01')])).toEqual([
    '2024-03-01',
    '2024-04-01',
    '2024-05-01',
  ])
})
