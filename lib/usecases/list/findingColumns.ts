import { RULE_IDS, ruleTitle } from '../../rules/index.ts'
import type { CsvCell } from '../export/csvText.ts'
import type { Columns } from '../export/exportedFile.ts'
import type { EvidenceJson, FindingJson } from '../json/findingJson.ts'
import { words } from './listColumns.ts'
import type { StandingAnswer } from './standingAnswer.ts'

/** One current finding of one place of the list. */
export interface FindingInFile {
  readonly finding: FindingJson
  /** Whether a review answers it: then it waits for its day. */
  readonly answered: boolean
}

/** The current findings of a kept answer: those that are open first, as the list has them. */
export function findingsInFile({ findings, answered }: Pick<StandingAnswer, 'findings' | 'answered'>): FindingInFile[] {
  return findings.map((finding, at) => ({ finding, answered: at >= findings.length - answered }))
}

function titleOf(rule: string): string {
  const known = RULE_IDS.find((id) => id === rule)
  return known === undefined ? rule : ruleTitle(known)
}

const ROLES = ['reference', 'previous', 'current'] as const
const PARTS: readonly (readonly [string, (evidence: EvidenceJson) => string | null])[] = [
  ['test', ({ analyte }) => analyte],
  ['comparator', ({ comparator }) => comparator],
  ['value', ({ value }) => value],
  ['unit', ({ unit }) => unit],
  ['collected', ({ collectedOn }) => collectedOn],
]

/** Several values of one role stand in one cell, in the same order in each of its columns, apart by a semicolon. */
function evidenceCell(finding: FindingJson, role: EvidenceJson['role'], part: (evidence: EvidenceJson) => string | null): CsvCell {
  const told = finding.evidence.filter((evidence) => evidence.role === role).map((evidence) => part(evidence) ?? '')
  return told.every((text) => text === '') ? null : told.join('; ')
}

const EVIDENCE_COLUMNS: Columns<FindingInFile> = ROLES.flatMap((role) =>
  PARTS.map(([name, part]) => [`${role} ${name}`, ({ finding }: FindingInFile) => evidenceCell(finding, role, part)] as const),
)

/** What is told of a finding, whoever it is about: what was found, how surely, how soon to look, and each value it rests on. */
export const FINDING_COLUMNS: Columns<FindingInFile> = [
  ['rule', ({ finding }) => finding.rule],
  ['title', ({ finding }) => titleOf(finding.rule)],
  ['window', ({ finding }) => words(finding.window)],
  ['state', ({ finding }) => finding.state],
  ['certainty', ({ finding }) => finding.certainty],
  ['since', ({ finding }) => finding.since],
  ['cautions', ({ finding }) => finding.cautions.map(words).join('; ')],
  ['answered', ({ answered }) => (answered ? 'yes' : 'no')],
  ['finding', ({ finding }) => finding.says],
  ...EVIDENCE_COLUMNS,
  ['source', ({ finding }) => finding.source],
]
