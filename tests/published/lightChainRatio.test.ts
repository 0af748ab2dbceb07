import { expect, test } from 'vitest'
import { lightChainPairs, RENAL_RATIO, ratioAbnormal, USUAL_RATIO } from '../../lib/course/index.ts'
import { decimalText, isExact } from '../../lib/units/index.ts'
import type { ResultRow } from '../builders/history.ts'
import { courseOf, shownInterval } from '../course/shown.ts'
import reference from './reference/stats_flc_rule_boundary.json' with { type: 'json' }

const rows = ({ kappa, lambda, unit }: { kappa: string; lambda: string; unit: string }): ResultRow[] => [
  ['2020-01-01', 'kappa-flc', kappa, unit],
  ['2020-01-01', 'lambda-flc', lambda, unit],
]
const holds = (outside: boolean | null) => (outside ? 'certain' : 'no')
const exact = reference.cases.filter((one) => one.ratio !== null)

// Intervals: Katzmann, Clin Chem 2002;48:1437; Hutchison, CJASN 2008;3:1684. Edges by exact arithmetic.
test.each(exact)('case $id: $kappa / $lambda $unit', (one) => {
  const course = courseOf({ results: rows(one) })
  const [pair] = course.lightChains
  if (pair === undefined) throw new Error('a pair was expected')
  const chains = { kappa: pair.kappa.value, lambda: pair.lambda.value }
  expect(ratioAbnormal(chains, USUAL_RATIO)).toBe(holds(one['outside_0.26_1.65']))
  expect(ratioAbnormal(chains, RENAL_RATIO)).toBe(holds(one['outside_0.37_3.1']))
  expect(course.involved?.chain ?? 'none').toBe(one.involved)
  const [dflc] = course.markers.dflc.samples
  expect(dflc === undefined ? null : Number(decimalText(dflc.value.low))).toBe(one.involved_minus_uninvolved_mgL)
})

test('case 18: a kappa below its limit is outside on the low side for certain', () => {
  const course = courseOf({ results: rows({ kappa: '<0.6', lambda: '57.2', unit: 'mg/L' }) })
  expect(course.involved).toEqual({ chain: 'lambda', from: 'ratio' })
  expect(shownInterval(course.markers.dflc.samples[0]?.value)).toBe('[56.6, 57.2]')
})

test('case 19: a lambda below its limit leaves kappa involved and the difference between 249 and 250', () => {
  const course = courseOf({ results: rows({ kappa: '250', lambda: '<1.0', unit: 'mg/L' }) })
  const [pair] = lightChainPairs(course)
  expect(course.involved).toEqual({ chain: 'kappa', from: 'ratio' })
  expect(shownInterval(course.markers.dflc.samples[0]?.value)).toBe('[249, 250]')
  expect(pair && isExact(pair.uninvolved)).toBe(false)
})
