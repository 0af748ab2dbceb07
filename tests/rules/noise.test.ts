import { expect, test } from 'vitest'
import { REFERENCE_CHANGE } from '../../lib/rules/noise.ts'

/** exp(1.645 x sqrt2 x s) - 1, s = sqrt(ln(1 + CV^2)): clinical.md 1.5; total CVs of Katzmann 2011, Clin Chem 57:1687. */
function upward(cv: number): number {
  return Math.exp(1.645 * Math.SQRT2 * Math.sqrt(Math.log(1 + cv * cv))) - 1
}

test.each([
  ['serum', 0.081],
  ['urine', 0.358],
  ['lightChain', 0.284],
] as const)('the reference change value of %s follows from its total CV %d', (of, cv) => {
  expect(Number(REFERENCE_CHANGE[of])).toBeCloseTo(upward(cv), 5)
})
