import type { DetectedIssue, DetectedIssueEvidence, DetectedIssueMitigation } from 'fhir/r4'
import { findingKey } from '../../review/index.ts'
import { CAUTION_SAYS, type Evidence, type Finding, ruleTitle, says, sourceOf } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { CAUTION } from '../export/caution.ts'
import { evidenceIds } from './computed.ts'
import { narrative } from './narrative.ts'
import type { ResourceIds } from './resourceIds.ts'
import { OURS, referenceTo, stringOf } from './told.ts'

const ROLE = { reference: 'held against', previous: 'sample before', current: 'current' } as const

function evidenceText({ role, analyte, comparator, value, unit, collectedOn }: Evidence): string {
  return `${ROLE[role]}: ${analyte.replaceAll('-', ' ')} ${comparator ?? ''}${value} ${unit}`.trimEnd().concat(` on ${collectedOn}`)
}

function evidenceOf(evidence: Evidence, ids: ResourceIds, told: ReadonlySet<string>): DetectedIssueEvidence {
  const detail = evidenceIds(evidence, ids).filter((id) => told.has(id))
  return { code: [{ text: evidenceText(evidence) }], ...(detail.length === 0 ? {} : { detail: detail.map(referenceTo) }) }
}

/** What people recorded of it: that somebody looked, and another cause. Notes stay in the clinic; a cause changes what the finding means. */
function mitigationOf(finding: Finding, { answers, attributions }: Assessment): DetectedIssueMitigation[] {
  const answer = answers.get(finding)
  const attribution = attributions.get(finding)
  return [
    ...(attribution === undefined
      ? []
      : [
          {
            action: { text: stringOf(`A physician recorded another cause: ${attribution.decision.text}. It holds until ${attribution.until}.`) },
            date: attribution.decision.on,
          },
        ]),
    ...(answer === undefined
      ? []
      : [{ action: { text: `Somebody of the clinic looked and answered it; it comes back on ${answer.bringBackOn}.` }, date: answer.on }]),
  ]
}

interface Around {
  readonly ids: ResourceIds
  readonly patient: string
  readonly device: string
  /** The Observations that are in the Bundle. */
  readonly observations: ReadonlySet<string>
}

/**
 * One current finding as a FHIR R4 DetectedIssue. It has no `severity`, which would say how much harm is likely: how soon somebody should look is another thing,
 * and stands in an extension of ours and in the text. `reference` takes an address only, so the source stands in the text.
 */
export function detectedIssueOf(
  finding: Finding,
  assessment: Assessment,
  { ids, patient, device, observations }: Around,
): DetectedIssue & { id: string } {
  const { rule, state, certainty, window, since, cautions, evidence } = finding
  const told = [
    says(finding),
    `Look ${window.replaceAll('-', ' ')}; ${state}${certainty === 'possible' ? ', possible, not certain' : ''}; since ${since}.`,
    ...cautions.map((caution) => `Caution: ${CAUTION_SAYS[caution]}`),
    `Source: ${sourceOf(rule)}.`,
    CAUTION,
  ]
  const mitigation = mitigationOf(finding, assessment)
  return {
    resourceType: 'DetectedIssue',
    id: ids('finding', findingKey(finding)),
    text: narrative([ruleTitle(rule), ...told]),
    extension: [
      { url: OURS.window, valueCode: window },
      { url: OURS.state, valueCode: state },
      { url: OURS.certainty, valueCode: certainty },
    ],
    // A second sample is still to come, or the value is known within limits only: what FHIR calls preliminary.
    status: state === 'unconfirmed' || certainty === 'possible' ? 'preliminary' : 'final',
    code: { coding: [{ system: OURS.rule, code: rule, display: ruleTitle(rule) }], text: ruleTitle(rule) },
    patient: referenceTo(patient),
    identifiedDateTime: since,
    author: referenceTo(device),
    ...(evidence.length === 0 ? {} : { evidence: evidence.map((one) => evidenceOf(one, ids, observations)) }),
    detail: stringOf(told.join(' ')),
    ...(mitigation.length === 0 ? {} : { mitigation }),
  }
}
