import { expect, test } from 'vitest'
import { changeFromLowest } from '../../lib/course/index.ts'
import { courseOf } from '../course/shown.ts'
import reference from './reference/stats_percent_change.json' with { type: 'json' }

/** Rounded to one decimal, half away from zero, as the specification asks. */
const oneDecimal = (percent: number) => `${Math.sign(percent) < 0 ? '-' : ''}${(Math.round(Math.abs(percent) * 10 + 1e-9) / 10).toFixed(1)}`

// Source: exact arithmetic (tests/published/reference/README.md).
test.each(reference.cases)('case $case: $nadir -> $current $unit', (one) => {
  const course = courseOf({
    diagnosis: ['2020-01-01', 'active'],
    lines: [{ start: '2020-01-01' }],
    results: [
      ['2020-01-01', 'serum-m-protein', String(one.nadir)],
      ['2020-02-01', 'serum-m-protein', String(one.current)],
    ],
  })
  const change = changeFromLowest(course.markers['serum-m-protein'])
  expect(Number(change.absolute)).toBeCloseTo(one.abs_change, 12)
  expect(change.absolute).toMatch(/^-?\d+(\.\d{1,2})?$/)
  expect(change.percent).toBe(one.pct_change === null ? null : oneDecimal(one.pct_change))
})
