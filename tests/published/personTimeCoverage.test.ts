import { expect, test } from 'vitest'
import { personTimeCoverage } from '../../lib/statistics/index.ts'

const litters = (text: string) => text.split(' ').map((litter) => ({ covered: Number(litter.split('/')[0]), total: Number(litter.split('/')[1]) }))

// The pups of Weil, Fd Cosmet Toxicol 1970;8:177, which Rao and Scott, Biometrics 1992;48:577, work through: alive at 21 days of those at 4, by litter.
// Share and design effect by their formula in exact fractions (Python).
test.each([
  ['control', '13/13 12/12 9/9 9/9 8/8 8/8 12/13 11/12 9/10 9/10 8/9 11/13 4/5 5/7 7/10 7/10', 142, 158, 1.232495394306769],
  ['treated', '12/12 11/11 10/10 9/9 10/11 9/10 9/10 8/9 8/9 4/5 7/9 4/7 5/10 3/6 3/10 0/7', 112, 145, 3.9528606259640737],
])('%s: the design effect of the ratio', (_name, text, covered, total, effect) => {
  const found = personTimeCoverage(litters(text))
  expect(found).toMatchObject({ people: 16, covered, total, share: covered / total })
  expect(found?.designEffect).toBeCloseTo(effect, 10)
})
