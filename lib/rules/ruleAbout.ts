import { RULES } from './courseRules.ts'
import { DRIFT_FOLLOW_UP_RULES } from './drift/index.ts'
import { GAP_RULES } from './gaps/index.ts'
import type { RuleId } from './ruleId.ts'

/** The question a rule asks, and where it comes from. */
export interface RuleAbout {
  readonly asks: string
  readonly source: string
}

const ABOUT = new Map<RuleId, RuleAbout>([...RULES, ...DRIFT_FOLLOW_UP_RULES, ...GAP_RULES].map(({ id, asks, source }) => [id, { asks, source }]))

/** What a rule asks and where it comes from. Throws RangeError for an id no rule has. */
export function ruleAbout(id: RuleId): RuleAbout {
  const about = ABOUT.get(id)
  if (about === undefined) throw new RangeError(`no rule is called "${id}"`)
  return about
}

/** Where a rule comes from, as printed beside its findings. */
export function sourceOf(id: RuleId): string {
  return ruleAbout(id).source
}
