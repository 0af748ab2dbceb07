/** Operations as a step prints them: `+ - x / ^`, `min( , )`, `max( , )`, `exp( )`, `ln( )`, `sqrt( )`, brackets, and `days(from, to)` between ISO days. */
export type Expression = string

/** One step of a sum: what it works out, the numbers put in, and what comes out. */
export interface Step {
  readonly label: string
  readonly put: Expression
  readonly result: string
  readonly unit: string
  /** Decimals the result is rounded to, half away from zero; null where it is exact. */
  readonly places: number | null
}

/** How a number came about: what it rests on, each step with its values, the formula's source and how far it can be relied on. */
export interface Arithmetic {
  /** Names the sum within one patient; stands in addresses of the page. */
  readonly id: string
  readonly name: string
  readonly result: string
  /** What the steps rest on, in words: values, days, and why these. */
  readonly from: readonly string[]
  readonly steps: readonly Step[]
  /** A criterion the result is held against, and whether it is met; null where there is none. */
  readonly against: string | null
  readonly source: string
  /** What tells the age of the patient, and is not shown under a pseudonym. */
  readonly tellsAge: boolean
}
