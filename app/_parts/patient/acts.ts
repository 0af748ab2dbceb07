import type { Day } from '../../../lib/time/index.ts'
import type { TwoStepAct } from '../courseChange/index.ts'
import type { FormAct } from '../useKeptForm.ts'

/** What the person who reads a patient page may do on it: the action itself, or null, and then the page has no form for it. */
export interface PatientActs {
  readonly answer: FormAct<{ bringBackOn: Day | null }> | null
  readonly takeBack: FormAct<unknown> | null
  readonly attribute: TwoStepAct<{ until: Day }> | null
  readonly withdraw: TwoStepAct<null> | null
  readonly exclude: TwoStepAct<null> | null
  readonly restore: TwoStepAct<null> | null
}

export const READS_ONLY: PatientActs = { answer: null, takeBack: null, attribute: null, withdraw: null, exclude: null, restore: null }
