import type { JsonObject } from '../json/json.ts'
import { objectAt, objectsAt, textAt } from './element.ts'

const TYPES = 'http://terminology.hl7.org/CodeSystem/v2-0203'

/** Whether an identifier is of a type of HL7 table 0203: MR, a medical record number; ACSN, an accession number. */
export function isOfType(identifier: JsonObject, type: 'MR' | 'ACSN'): boolean {
  const codings = objectsAt(objectAt(identifier, 'type'), 'coding')
  return codings.some((coding) => textAt(coding, 'code') === type && ['', TYPES].includes(textAt(coding, 'system')))
}
