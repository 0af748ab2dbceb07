import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { quantiles } from '../../lib/statistics/index.ts'
import reference from './reference/mgus2_expected.json' with { type: 'json' }

const ROWS = readFileSync(new URL('reference/mgus2.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','))

// Quartiles of 1,384 people of one clinic (Kyle, NEJM 2002;346:564): R 4.2.2 quantile(), type 7.
test.each([
  ['age', 1, reference.labs.age],
  ['haemoglobin', 4, reference.labs.hgb],
  ['creatinine', 5, reference.labs.creat],
  ['M-protein', 6, reference.labs.mspike],
])('%s', (_name, column, expected) => {
  const numbers = ROWS.flatMap((row) => (row[column] ? [Number(row[column])] : []))
  expect(numbers).toHaveLength(expected.n)
  const found = quantiles(numbers, [0, 0.25, 0.5, 0.75, 1])
  expect(found).toEqual([expected.min, expected.q25, expected.median, expected.q75, expected.max])
})

// Hyndman and Fan, Am Stat 1996;50:361: type 7 of 1 to 10 at 0.9 is 9.1, where type 6 says 9.9 and type 2 says 9.5 (the formulas by hand).
test('the 90th percentile of ten numbers tells the type', () => {
  expect(quantiles([10, 9, 8, 7, 6, 5, 4, 3, 2, 1], [0.9])[0]).toBeCloseTo(9.1, 12)
})
