/** One file a rule. Rules never import each other. Facts only; the words are in sentences.ts. */
export { CAUTIONS, type Caution, type Evidence, type Finding, type FindingState, STATES, WINDOWS, type Window } from './finding.ts'
export type { CourseRule, FollowUpRule } from './rule.ts'
export { RULE_IDS, type RuleId } from './ruleId.ts'
