import { unitWords } from '../units/index.ts'
import { COURSE_SENTENCES } from './courseSentences.ts'
import { DRIFT_SENTENCES } from './driftSentences.ts'
import type { Finding } from './finding.ts'
import { GAP_SENTENCES } from './gapSentences.ts'
import type { RuleId } from './ruleId.ts'
import type { Sentence } from './sentence.ts'

/** The one table of wording: a rule without a sentence does not compile. */
const SENTENCES: Readonly<Record<RuleId, Sentence>> = { ...COURSE_SENTENCES, ...DRIFT_SENTENCES, ...GAP_SENTENCES } satisfies Record<RuleId, Sentence>

/** One finding in one or a few plain sentences, with its numbers; never a diagnosis. */
export function says(finding: Finding): string {
  return finding.saidThen ?? unitWords(SENTENCES[finding.rule](finding))
}
