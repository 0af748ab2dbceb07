import type { Bundle } from 'fhir/r4'
import { exclusionsOf, type LabResult } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { compositionOf } from './composition.ts'
import { computedValues } from './computed.ts'
import { detectedIssueOf } from './detectedIssue.ts'
import { observationOf } from './observation.ts'
import { conditionsOf, deviceResource, patientResource } from './people.ts'
import { resourceIds } from './resourceIds.ts'
import type { ObservationTold, ResourceTold } from './told.ts'

/** A Bundle of FHIR R4 whose numbers are exact. */
export type BundleTold = Omit<Bundle, 'entry'> & { readonly entry: readonly { readonly fullUrl: string; readonly resource: ResourceTold }[] }

export interface Summed {
  /** When it is made: UTC, ISO 8601. */
  readonly now: string
  readonly databaseId: string
  readonly planVersion: string
  /** Results the laboratory took back: nothing of them counts, and whoever received them has to hear it. */
  readonly withdrawn: readonly LabResult[]
  /** The patient is invented: told in the words of HL7 for test data. */
  readonly invented: boolean
}

const TEST_DATA = { system: 'http://terminology.hl7.org/CodeSystem/v3-ActReason', code: 'HTEST', display: 'test health data' }

/**
 * One patient as a FHIR R4 (4.0.1) Bundle of type `collection`: what it is, who, every result as reported, the phase as recorded, each current finding with the
 * results it rests on. No document: that would be signed by somebody. Pure.
 */
export function summaryBundle(assessment: Assessment, { now, databaseId, planVersion, withdrawn, invented }: Summed): BundleTold {
  const { course, known, findings } = assessment
  const ids = resourceIds(databaseId, course.patient.id)
  const [patient, device] = [ids('patient', ''), ids('device', planVersion)]
  const exclusions = exclusionsOf(known.decisions)
  const excludedOf = ({ id, status }: LabResult): string | null => {
    const exclusion = exclusions.get(id)
    return exclusion === undefined
      ? null
      : `Reported as ${status}. A physician of the clinic took it out as spurious on ${exclusion.on}: it counts for nothing.`
  }
  const results = [...known.results, ...withdrawn].map((result) => observationOf(result, ids, { patient, excluded: excludedOf(result) }))
  const computed = computedValues(
    findings.flatMap(({ evidence }) => evidence),
    ids,
    patient,
  )
  const observations: readonly ObservationTold[] = [...results, ...computed]
  const told = new Set(observations.map(({ id }) => id))
  const issues = findings.map((finding) => detectedIssueOf(finding, assessment, { ids, patient, device, observations: told }))
  const conditions = conditionsOf(course, ids('condition', ''), patient)
  const about = { id: ids('composition', now), patient, device, now, conditions, issues, observations }
  const resources: readonly ResourceTold[] = [
    compositionOf(assessment, about),
    patientResource(course.patient, patient),
    deviceResource(device, planVersion),
    ...conditions,
    ...issues,
    ...observations,
  ]
  return {
    resourceType: 'Bundle',
    ...(invented ? { meta: { tag: [TEST_DATA] } } : {}),
    type: 'collection',
    timestamp: now,
    entry: resources.map((resource) => ({ fullUrl: `urn:uuid:${resource.id}`, resource })),
  }
}
