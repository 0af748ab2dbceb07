import type { Analyte } from '../../lib/results/index.ts'
import type { Offset } from '../calendar.ts'

/** What is drawn together. `core` is what every visit asks for: M-protein, free light chains, blood count, chemistry. */
export type Draw = 'core' | 'immunoglobulins' | 'urine' | 'immunofixation' | 'urine-immunofixation' | 'staging'

/** A directed value: a number in the unit kept, or made from the true one, printed without variation; or words as printed. */
export type Change = number | string | ((truth: number) => number)
export type Changes = Readonly<Partial<Record<Analyte, Change>>>

/** One day on which blood was drawn. */
export interface Visit {
  readonly on: Offset
  readonly draws: readonly Draw[]
  /** How much of treatment the marrow feels, 0 to 1. */
  readonly treated: number
  readonly changes: Changes
  /** Sent to the laboratory this patient does not usually go to. */
  readonly elsewhere: boolean
}

/** A visit that a scenario fixes: days before the cohort's end, and what it shows. */
export interface DirectedVisit {
  readonly daysAgo: number
  readonly changes?: Changes
  readonly elsewhere?: boolean
}
