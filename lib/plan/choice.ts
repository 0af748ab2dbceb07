import { intervalText } from './interval.ts'
import type { Interval } from './plan.ts'

/** What a clinic can set in one place of its plan. */
export type PlanValue = Interval | number | string

interface Asked {
  /** Stands for the place in forms and in the database. */
  readonly id: string
  /** The row of the plan or the kind of threshold it belongs to. */
  readonly about: string
  readonly asks: string
  /** As Lowmark comes, with its source. */
  readonly usual: PlanValue
  readonly source: string
  /** Why it may not be set further. */
  readonly why: string
}

/** One number or word of the plan that a clinic may set otherwise. */
export type PlanChoice =
  | (Asked & { readonly kind: 'interval'; readonly leastDays: number; readonly mostMonths: number })
  | (Asked & { readonly kind: 'number'; readonly unit: string; readonly least: number; readonly most: number })
  | (Asked & { readonly kind: 'word'; readonly words: Readonly<Record<string, string>> })

/** Every place of the plan with what it is set to. */
export type PlanValues = Readonly<Record<string, PlanValue>>

/** "6 months", "25 %", "one interval below eGFR 60". */
export function valueText(choice: PlanChoice, value: PlanValue): string {
  if (typeof value === 'object') return intervalText(value)
  if (choice.kind === 'number') return `${value} ${choice.unit}`
  return choice.kind === 'word' ? (choice.words[String(value)] ?? String(value)) : String(value)
}

/** Are both set alike? 30 days and 1 month are not. */
export function sameValue(a: PlanValue, b: PlanValue): boolean {
  return typeof a === 'object' && typeof b === 'object' ? intervalText(a) === intervalText(b) : a === b
}
