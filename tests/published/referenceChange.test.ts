import { expect, test } from 'vitest'
import { ONE_SIDED_95, referenceChange, TOTAL_CV } from '../../lib/statistics/index.ts'
import reference from './reference/stats_rcv.json' with { type: 'json' }

// Source: R; log-normal form of Lund 2015 and Fokkema 2006, log variance of the joined CV.
test.each(reference.cases)('CV $cv_a and $cv_i, confidence $conf, $sided-sided', (one) => {
  const { up, down } = referenceChange(Math.hypot(one.cv_a, one.cv_i) / 100, one.z)
  expect(up * 100).toBeCloseTo(one.rcv_log_up_percent_total_cv, 9)
  expect(down * 100).toBeCloseTo(one.rcv_log_down_percent_total_cv, 9)
})

// z: the standard normal quantile in three decimals. CVs: Katzmann, Clin Chem 2011;57:1687.
test('the published variations give the values by hand', () => {
  const byHand = (cv: number) => Math.exp(1.645 * Math.sqrt(2) * Math.sqrt(Math.log(1 + cv * cv))) - 1
  expect(ONE_SIDED_95).toBe(1.645)
  expect(referenceChange(TOTAL_CV['serum-m-protein']).up).toBeCloseTo(byHand(0.081), 12)
  expect(referenceChange(TOTAL_CV['urine-m-protein']).up).toBeCloseTo(byHand(0.358), 12)
  expect(referenceChange(TOTAL_CV['involved-flc']).up).toBeCloseTo(byHand(0.284), 12)
})
