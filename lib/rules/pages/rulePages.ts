import { RULE_IDS, type RuleId } from '../ruleId.ts'
import { DANGER_SECTION } from './danger.ts'
import { DRIFT_SECTION } from './drift.ts'
import { GAPS_SECTION } from './gaps.ts'
import { MDE_SECTION } from './mde.ts'
import { PROGRESSION_SECTION } from './progression.ts'
import { RELAPSE_SECTION } from './relapse.ts'
import type { RulePage, RuleSection } from './rulePage.ts'

const SECTIONS: readonly RuleSection[] = [MDE_SECTION, PROGRESSION_SECTION, RELAPSE_SECTION, DANGER_SECTION, DRIFT_SECTION, GAPS_SECTION]

/** A rule without a page does not compile. */
const PAGES: Readonly<Record<RuleId, RulePage>> = {
  ...MDE_SECTION.pages,
  ...PROGRESSION_SECTION.pages,
  ...RELAPSE_SECTION.pages,
  ...DANGER_SECTION.pages,
  ...DRIFT_SECTION.pages,
  ...GAPS_SECTION.pages,
} satisfies Record<RuleId, RulePage>

/** What stands on the page of a rule, beside what it asks and its source. */
export function rulePage(id: RuleId): RulePage {
  return PAGES[id]
}

/** The sections of rules, each with the ids of its rules; a section without a rule is left out. */
export function ruleSections(): readonly (Omit<RuleSection, 'pages'> & { readonly rules: readonly RuleId[] })[] {
  return SECTIONS.map(({ pages, ...section }) => ({ ...section, rules: RULE_IDS.filter((id) => id in pages) })).filter(
    ({ rules }) => rules.length > 0,
  )
}
