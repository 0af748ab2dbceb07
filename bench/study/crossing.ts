import type { Truth } from '../../seed/index.ts'
import type { TrueCourse } from './trueCourse.ts'

/** The progression criteria once more, on ordinary numbers, so that no rule is measured against itself (IMWG 2016). `amount` in the unit kept. */
export interface TrueCriterion {
  readonly of: (truth: Truth) => number
  readonly amount: number
  /** The amount itself is not enough. */
  readonly strict: boolean
  /** From this reference on, so much is enough. */
  readonly high: { readonly from: number; readonly amount: number } | null
}

export const dflcOf = (truth: Truth): number => (truth['kappa-flc'] ?? 0) - (truth['lambda-flc'] ?? 0)

/** Criteria by the rule that asks them. A rise of dFLC by more than 100 mg/L over a normal uninvolved chain makes the ratio abnormal by itself. */
export const TRUE_CRITERIA = {
  'pd-serum': { of: (truth) => truth['serum-m-protein'] ?? 0, amount: 5, strict: false, high: { from: 50, amount: 10 } },
  'pd-urine': { of: (truth) => truth['urine-m-protein'] ?? 0, amount: 200, strict: false, high: null },
  'pd-light-chain': { of: dflcOf, amount: 100, strict: true, high: null },
  'light-chain-escape': { of: dflcOf, amount: 100, strict: true, high: null },
} as const satisfies Record<string, TrueCriterion>

export type CriterionRule = keyof typeof TRUE_CRITERIA

/** Whether a value meets the criterion against a reference, both noiseless. */
export function trulyMeets({ amount, strict, high }: TrueCriterion, reference: number, value: number): boolean {
  const rise = value - reference
  const enough = strict ? rise > amount : rise >= amount
  return (enough && rise >= 0.25 * reference) || (high !== null && reference >= high.from && rise >= high.amount)
}

/** When the truth crossed. */
export interface Crossing {
  /** Day of the lowest true value before it. */
  readonly nadir: number
  readonly day: number
  /** The truth meets the criterion on every later day too. */
  readonly sustained: boolean
}

/**
 * First day on which the noiseless value meets the criterion against the noiseless lowest confirmed value, day by day: the smallest level that two days
 * in a row before it both reached. Null where it never does.
 */
export function trueCrossing(course: Pick<TrueCourse, 'on' | 'days'>, criterion: TrueCriterion): Crossing | null {
  const values = Array.from({ length: course.days + 1 }, (_, day) => criterion.of(course.on(day)))
  const at = (day: number): number => values[day] ?? 0
  let reference = at(0)
  let nadir = 0
  for (let day = 1; day < values.length; day += 1) {
    if (trulyMeets(criterion, reference, at(day))) {
      return { nadir, day, sustained: values.slice(day).every((value) => trulyMeets(criterion, reference, value)) }
    }
    const level = Math.max(at(day - 1), at(day))
    if (level < reference) [reference, nadir] = [level, day]
  }
  return null
}
