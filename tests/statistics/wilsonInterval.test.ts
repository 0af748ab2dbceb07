import fc from 'fast-check'
import { expect, test } from 'vitest'
import { wilsonInterval } from '../../lib/statistics/index.ts'

const share = fc.integer({ min: 1, max: 5000 }).chain((of) => fc.record({ count: fc.nat({ max: of }), of: fc.constant(of) }))

test('the interval lies from 0 to 1 around the share, and of the rest it is the mirror', () => {
  fc.assert(
    fc.property(share, fc.double({ min: 0.5, max: 0.999, noNaN: true }), ({ count, of }, confidence) => {
      const [low, high] = wilsonInterval(count, of, confidence)
      expect(low).toBeGreaterThanOrEqual(0)
      expect(low).toBeLessThanOrEqual(count / of)
      expect(high).toBeGreaterThanOrEqual(count / of)
      expect(high).toBeLessThanOrEqual(1)
      const [restLow, restHigh] = wilsonInterval(of - count, of, confidence)
      expect(restLow).toBeCloseTo(1 - high, 12)
      expect(restHigh).toBeCloseTo(1 - low, 12)
    }),
  )
})
