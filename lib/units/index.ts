/** Exact decimals, intervals, UCUM units and their conversion. */
export { type Decimal, decimal, decimalText, larger, parseDecimal, roundedText, smaller } from './decimal.ts'
export {
  above,
  allHold,
  anyHolds,
  atLeast,
  atMost,
  below,
  difference,
  exactly,
  type Holds,
  type Interval,
  isExact,
  largerInterval,
  scaled,
  smallerInterval,
} from './interval.ts'
export { type Bridge, type UnitReading, unitFactor } from './ucum.ts'
export { ucumCodeOf } from './unitSynonyms.ts'
export { unitWords } from './unitWords.ts'
