import type { TestGroup } from '../../plan/index.ts'
import type { RuleId, Window } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import type { Edged } from './valueEdge.ts'

/** One thing that would change what is said, each found by assessing the patient as if it had come. */
export type WouldChange =
  | ({ readonly what: 'confirms' | 'no-longer-shown' | 'first-met'; readonly rule: RuleId } & Edged)
  | { readonly what: 'done'; readonly rule: RuleId; readonly group: TestGroup; readonly on: Day; readonly window: Window }
  | { readonly what: 'held-decided'; readonly rule: RuleId; readonly count: number; readonly window: Window }
