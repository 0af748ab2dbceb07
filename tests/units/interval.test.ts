import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  above,
  allHold,
  anyHolds,
  atLeast,
  atMost,
  below,
  decimal,
  decimalText,
  difference,
  exactly,
  type Holds,
  type Interval,
  isExact,
  largerInterval,
  scaled,
  smallerInterval,
} from '../../lib/units/index.ts'

const between = (low: string, high: string | null): Interval => ({ low: decimal(low), high: high === null ? null : decimal(high) })
const shown = (of: Interval | null) => (of === null ? null : [decimalText(of.low), of.high === null ? null : decimalText(of.high)])
const FIVE = decimal('5')

test.each<[string, Interval, Holds, Holds, Holds, Holds]>([
  ['exactly 5', exactly('5'), 'certain', 'no', 'no', 'certain'],
  ['exactly 4.9', exactly('4.9'), 'no', 'no', 'certain', 'certain'],
  ['exactly 5.1', exactly('5.1'), 'certain', 'certain', 'no', 'no'],
  ['0 to 5', between('0', '5'), 'possible', 'no', 'possible', 'certain'],
  ['0 to 4.9', between('0', '4.9'), 'no', 'no', 'certain', 'certain'],
  ['0 to 6', between('0', '6'), 'possible', 'possible', 'possible', 'possible'],
  ['5 and more', between('5', null), 'certain', 'possible', 'no', 'possible'],
  ['6 and more', between('6', null), 'certain', 'certain', 'no', 'no'],
  ['0 and more', between('0', null), 'possible', 'possible', 'possible', 'possible'],
])('%s against 5', (_name, of, isAtLeast, isAbove, isBelow, isAtMost) => {
  expect([atLeast(of, FIVE), above(of, FIVE), below(of, FIVE), atMost(of, FIVE)]).toEqual([isAtLeast, isAbove, isBelow, isAtMost])
})

test('a judgement holds for every value inside where it is certain, for none where it is no', () => {
  const tenths = fc.integer({ min: 0, max: 100 })
  fc.assert(
    fc.property(tenths, tenths, tenths, (a, b, inside) => {
      const [low, high] = [Math.min(a, b), Math.max(a, b)]
      const at = Math.min(Math.max(inside, low), high)
      const of = between(String(low / 10), String(high / 10))
      for (const judge of [atLeast, above, below, atMost]) {
        const one = judge(exactly(String(at / 10)), FIVE)
        if (judge(of, FIVE) === 'certain') expect(one).toBe('certain')
        if (judge(of, FIVE) === 'no') expect(one).toBe('no')
      }
    }),
  )
})

test('smaller and larger, end by end', () => {
  expect(shown(smallerInterval(between('0', '5'), exactly('3')))).toEqual(['0', '3'])
  expect(shown(smallerInterval(between('4', null), exactly('6')))).toEqual(['4', '6'])
  expect(shown(smallerInterval(between('4', null), between('6', null)))).toEqual(['4', null])
  expect(shown(largerInterval(between('0', '5'), exactly('3')))).toEqual(['3', '5'])
  expect(shown(largerInterval(between('4', null), exactly('6')))).toEqual(['6', null])
})

test('differences and multiples are exact', () => {
  expect(shown(difference(exactly('2.3'), exactly('1.8')))).toEqual(['0.5', '0.5'])
  expect(shown(difference(between('0', '5'), between('1', '2')))).toEqual(['-2', '4'])
  expect(shown(difference(between('5', null), exactly('1')))).toEqual(['4', null])
  expect(difference(exactly('5'), between('1', null))).toBe(null)
  expect(shown(scaled(between('0.1', '0.3'), decimal('10')))).toEqual(['1', '3'])
  expect(shown(scaled(between('0.1', null), decimal('10')))).toEqual(['1', null])
})

test('exact or not', () => {
  expect([isExact(exactly('5')), isExact(between('5', '5.0')), isExact(between('0', '5')), isExact(between('5', null))]).toEqual([
    true,
    true,
    false,
    false,
  ])
})

test('all hold as the weakest, any as the strongest', () => {
  expect([allHold(), allHold('certain', 'possible'), allHold('possible', 'no')]).toEqual(['certain', 'possible', 'no'])
  expect([anyHolds(), anyHolds('no', 'possible'), anyHolds('possible', 'certain')]).toEqual(['no', 'possible', 'certain'])
})
