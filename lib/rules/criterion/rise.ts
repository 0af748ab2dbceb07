import { type Decimal, decimal, type Holds, type Interval, isExact, larger } from '../../units/index.ts'

/** A rise that counts: by a share of the reference and by an amount, both; or, from a high reference on, by a fixed amount. */
export interface RiseCriterion {
  /** Share of the reference, 0.25 for 25 %. */
  readonly share: Decimal
  readonly amount: Decimal
  /** True when the amount itself must be exceeded. */
  readonly strictAmount: boolean
  readonly high: { readonly from: Decimal; readonly amount: Decimal } | null
}

/** The smallest value that meets a criterion; when strict, what lies above it. */
export interface Level {
  readonly at: Decimal
  readonly strict: boolean
}

function byShareAndAmount({ share, amount, strictAmount }: RiseCriterion, reference: Decimal): Level {
  const part = reference.times(share)
  return { at: reference.plus(larger(part, amount)), strict: strictAmount && part.lte(amount) }
}

/** The criterion as a level above one reference value. A reference of 0 or below leaves the amount alone to decide. */
export function levelFrom(criterion: RiseCriterion, reference: Decimal): Level {
  const level = byShareAndAmount(criterion, reference)
  const { high } = criterion
  if (high === null || reference.lt(high.from)) return level
  const fixed = reference.plus(high.amount)
  return fixed.lt(level.at) ? { at: fixed, strict: false } : level
}

function reaches(value: Decimal, { at, strict }: Level): boolean {
  return strict ? value.gt(at) : value.gte(at)
}

function harder(a: Level, b: Level): Level {
  return a.at.gt(b.at) || (a.at.eq(b.at) && a.strict) ? a : b
}

// The level drops where the high reference begins: an interval across that point has its highest level just below it, its lowest perhaps on it.
function levelsOver(criterion: RiseCriterion, reference: Interval): { easiest: Level; hardest: Level | null } {
  const { high } = criterion
  const atLow = levelFrom(criterion, reference.low)
  const atHigh = reference.high === null ? null : levelFrom(criterion, reference.high)
  const across = high !== null && reference.low.lt(high.from) && (reference.high === null || reference.high.gte(high.from))
  if (!across) return { easiest: atLow, hardest: atHigh }
  const on = levelFrom(criterion, high.from)
  return {
    easiest: harder(on, atLow) === on ? atLow : on,
    hardest: atHigh === null ? null : harder(byShareAndAmount(criterion, high.from), atHigh),
  }
}

/** Whether `current` meets the criterion against `reference`: certain for every pair of values they leave possible, possible for some. */
export function meets(criterion: RiseCriterion, reference: Interval, current: Interval): Holds {
  if (isExact(reference) && isExact(current)) return reaches(current.low, levelFrom(criterion, reference.low)) ? 'certain' : 'no'
  const { easiest, hardest } = levelsOver(criterion, reference)
  if (hardest !== null && reaches(current.low, hardest)) return 'certain'
  return current.high === null || reaches(current.high, easiest) ? 'possible' : 'no'
}

function rise(share: string, amount: string, more: Partial<RiseCriterion> = {}): RiseCriterion {
  return { share: decimal(share), amount: decimal(amount), strictAmount: false, high: null, ...more }
}

/** Rises that count as progression (IMWG 2016) and as significant relapse (Rajkumar 2011), in the unit kept. */
export const RISES = {
  /** g/L; or 10 g/L from 50 g/L on. */
  serum: rise('0.25', '5', { high: { from: decimal('50'), amount: decimal('10') } }),
  /** The same in mg/L, the unit IgD is kept in. */
  serumMgL: rise('0.25', '5000', { high: { from: decimal('50000'), amount: decimal('10000') } }),
  /** mg/24 h. */
  urine: rise('0.25', '200'),
  /** mg/L of dFLC, strictly more than the amount. */
  dflc: rise('0.25', '100', { strictAmount: true }),
  /** Percentage points of marrow plasma cells. */
  marrow: rise('0.25', '10'),
  /** Circulating plasma cells per uL (from memory). */
  circulating: rise('0.5', '200'),
  significantSerum: rise('0', '10'),
  significantUrine: rise('0', '500'),
  /** mg/L of the involved free light chain. */
  significantLightChain: rise('0.25', '200'),
} as const satisfies Record<string, RiseCriterion>
