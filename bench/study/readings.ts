import type { Reading } from './falseFlags.ts'
import { beyondNoise, heldByThree } from './runs.ts'
import type { Simulated } from './simulate.ts'
import { type JUDGED_BY_LOWEST, STUDIED, type Studied } from './watched.ts'

export type JudgedByLowest = (typeof JUDGED_BY_LOWEST)[number]

/** Ways to read the same samples, by what `confirmed` asks for. The first is what Lowmark does. */
export const READINGS = [
  { name: 'two samples against the lowest confirmed value', of: (rule) => (one) => one.said[rule] },
  { name: 'two samples against the plain lowest value', of: (rule) => (one) => one.byLowest[rule] },
  { name: 'the first, and the rise larger than noise (no caution `inside-noise`)', of: (rule) => (one) => beyondNoise(one.said[rule]) },
  { name: 'the first, in two samples running (three samples)', of: (rule) => (one) => heldByThree(one.said[rule]) },
] as const satisfies readonly { readonly name: string; readonly of: (rule: JudgedByLowest) => Reading }[]

export const said =
  (rule: Studied): Reading =>
  (one) =>
    one.said[rule]

export const byLowest =
  (rule: JudgedByLowest): Reading =>
  (one) =>
    one.byLowest[rule]

/** Whether any of the rules studied says anything at a sample. */
export const saidByAny: Reading = (one: Simulated) =>
  one.days.map((_, at) => (STUDIED.some((rule) => (one.said[rule][at] ?? '-') !== '-') ? 'm' : '-')).join('')

/** What `projected-crossing` said under one of the settings. */
export const underSetting =
  (at: number): Reading =>
  (one) =>
    one.bySetting[at] ?? ''
