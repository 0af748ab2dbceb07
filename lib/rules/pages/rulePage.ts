import type { MarkedNumber } from '../../models/index.ts'
import type { Window } from '../finding.ts'

/** Which patients a rule looks at, by the phase of their disease. */
export type RunsIn = 'mgus' | 'precursor' | 'active' | 'recorded' | 'unrecorded' | 'every'

/** What a person should know of a rule before relying on it: when it looks, how soon, by which numbers, and where it is blind. */
export interface RulePage {
  readonly runsIn: RunsIn
  /** Every window its findings can have, the soonest first, each with when. */
  readonly windows: readonly { readonly window: Window; readonly when: string }[]
  readonly numbers: readonly MarkedNumber[]
  /** How it is worked out, where the question alone does not say it; one sentence each. */
  readonly how: readonly string[]
  /** What it cannot see, one sentence each. */
  readonly cannotSee: readonly string[]
  /** What else can cause what it shows; common practice, a reminder and no list to tick off. */
  readonly elseCauses: readonly string[]
}

/** The rules of one section of clinical.md 3, in the order of the list of rules. */
export interface RuleSection {
  readonly title: string
  readonly intro: string
  /** False where what else can cause it is no medical knowledge: a file not sent, a row that waits. */
  readonly causesAreMedical: boolean
  readonly pages: Readonly<Record<string, RulePage>>
}

/** Which patients, in words. */
export const RUNS_IN_WORDS: Readonly<Record<RunsIn, string>> = {
  mgus: 'MGUS.',
  precursor: 'MGUS and smouldering myeloma.',
  active: 'Active disease; also plasmacytoma, amyloidosis and plasma cell leukaemia, which are followed by the same rules.',
  recorded: 'Every phase that is recorded.',
  unrecorded: 'Patients whose phase is not recorded.',
  every: 'Every phase, and patients without a recorded one.',
}
