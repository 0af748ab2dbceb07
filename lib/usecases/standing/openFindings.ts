import { createHash } from 'node:crypto'
import { findingKey, isDanger, pastAnswersTo, topicOf } from '../../review/index.ts'
import type { Finding } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { OpenFinding } from '../../store/index.ts'

/** What the rounds know a finding by: the first 128 bits of the SHA-256 of its key. */
export function keyDigest(key: string): string {
  return createHash('sha256').update(key).digest('hex').slice(0, 32)
}

type Came = Pick<OpenFinding, 'answeredAt' | 'back'>

const NEVER: Came = { answeredAt: null, back: null }

/** The last review that answered a finding before, and why it answers it no longer. A danger is never answered, so it never comes back. */
function cameBack(finding: Finding, key: string, { changes, known }: Pick<Assessment, 'changes' | 'known'>): Came {
  if (isDanger(finding.rule)) return NEVER
  const corrected = changes.get(finding)?.decisions ?? []
  if (finding.rule === 'reviewed-then-corrected') {
    const at = corrected.map((decision) => decision.at).toSorted()
    return { answeredAt: at.at(-1) ?? null, back: at.length === 0 ? null : 'corrected' }
  }
  // Handed to a physician it is open for that, and did not come back.
  const last = pastAnswersTo(finding, known.decisions, [])[0]
  if (last?.kind !== 'review') return NEVER
  const isCorrected = corrected.some(({ id }) => id === last.id)
  return { answeredAt: last.at, back: isCorrected ? 'corrected' : last.key === key ? 'day' : 'evidence' }
}

/** The open findings of an assessment for the rounds, in order of their keys, each key once. */
export function openFindings(assessment: Pick<Assessment, 'open' | 'changes' | 'known' | 'handovers'>): OpenFinding[] {
  const found = assessment.open.map((finding) => {
    const key = findingKey(finding)
    const handed: 0 | 1 = assessment.handovers.has(finding) ? 1 : 0
    return { key: keyDigest(key), topic: topicOf(key), ...cameBack(finding, key, assessment), handed }
  })
  return [...new Map(found.map((finding) => [finding.key, finding])).values()].toSorted((a, b) => (a.key < b.key ? -1 : 1))
}
