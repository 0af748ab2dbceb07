import type { Occasion } from './occasion.ts'

/** By what the audit can be told apart. The clinic's sites are in no file that comes in, so there is no such word. */
export const DIMENSIONS = ['group', 'month', 'phase', 'care', 'risk', 'clinician', 'laboratory'] as const
export type Dimension = (typeof DIMENSIONS)[number]

/** Stands for what is recorded nowhere. */
export const NOT_RECORDED = 'not recorded'

/** An occasion with the laboratory that reported it. */
export type Placed = Occasion & {
  /** Of the sample that did it; where none did, of the sample before. Null where no report names it. */
  readonly laboratory: string | null
}

/** The group of a dimension an occasion belongs to: one and only one. Months as `2026-03`, of the due day. */
export function keyOf(dimension: Dimension, occasion: Placed): string {
  if (dimension === 'month') return occasion.dueOn.slice(0, 7)
  return occasion[dimension] ?? NOT_RECORDED
}
