import { analyteWords, type LabResult } from '../../results/index.ts'
import { dateTimeOf, instantOf } from './dateTime.ts'
import { limitsOf, reportedValue } from './observedValue.ts'
import type { ResourceIds } from './resourceIds.ts'
import { hl7, LOINC, type ObservationTold, referenceTo, stringOf } from './told.ts'

export const LABORATORY = hl7('observation-category', 'laboratory', 'Laboratory')

function circumstances({ laboratory, method, accession, reportedAt }: LabResult): Partial<ObservationTold> {
  const [display, text, value] = [stringOf(laboratory), stringOf(method), stringOf(accession)]
  const issued = instantOf(reportedAt)
  return {
    ...(value === undefined ? {} : { identifier: [{ type: hl7('v2-0203', 'ACSN', 'Accession ID'), value }] }),
    ...(issued === undefined ? {} : { issued }),
    ...(display === undefined ? {} : { performer: [{ type: 'Organization', display }] }),
    ...(text === undefined ? {} : { method: { text } }),
  }
}

interface Counting {
  readonly patient: string
  /** Why it counts for nothing here, in a sentence; null while it counts. */
  readonly excluded: string | null
}

/**
 * One result as a FHIR R4 Observation, as it was reported. A result that a physician took out as spurious is `entered-in-error`, which is how the standard says
 * that a value counts for nothing; a note says that it was taken out here.
 */
export function observationOf(result: LabResult, ids: ResourceIds, { patient, excluded }: Counting): ObservationTold {
  const { id, code, analyte, collected, status } = result
  return {
    resourceType: 'Observation',
    id: ids('result', id),
    status: excluded === null ? status : 'entered-in-error',
    category: [LABORATORY],
    code: { coding: [{ system: LOINC, code }], text: analyteWords(analyte) },
    subject: referenceTo(patient),
    effectiveDateTime: dateTimeOf(collected),
    ...circumstances(result),
    ...reportedValue(result),
    ...limitsOf(result),
    ...(excluded === null ? {} : { note: [{ text: excluded }] }),
  }
}
