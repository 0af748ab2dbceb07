import { type Evidence, type Finding, says, sourceOf } from '../../rules/index.ts'

export interface EvidenceJson {
  readonly role: Evidence['role']
  readonly analyte: string
  readonly value: string
  readonly unit: string
  readonly comparator: string | null
  readonly collectedOn: string
}

/** One finding as the command line prints it (command-line.md). */
export interface FindingJson {
  readonly rule: string
  readonly state: string
  readonly certainty: string
  readonly window: string
  readonly since: string
  readonly cautions: readonly string[]
  readonly evidence: readonly EvidenceJson[]
  readonly says: string
  readonly source: string
}

/** The finding in the words and fields of command-line.md; internal facts stay inside. */
export function findingJson(finding: Finding): FindingJson {
  return {
    rule: finding.rule,
    state: finding.state,
    certainty: finding.certainty,
    window: finding.window,
    since: finding.since,
    cautions: finding.cautions,
    evidence: finding.evidence.map(({ role, analyte, value, unit, comparator, collectedOn }) => ({
      role,
      analyte,
      value,
      unit,
      comparator,
      collectedOn,
    })),
    says: says(finding),
    source: sourceOf(finding.rule),
  }
}
