import type { JsonObject } from '../json/json.ts'
import { quoted } from '../quoted.ts'
import { changedMeaning } from './changedMeaning.ts'
import { objectAt, objectsAt, textAt } from './element.ts'
import { type FileIndex, typeAndId } from './fileIndex.ts'
import { isOfType } from './identifierType.ts'

/** Raised inside this folder only: whom a resource is about is not certain. */
export class PatientUnclear extends Error {}

/**
 * The patient_id of a Patient resource: its first identifier of type MR (medical record number), else its only one, else its id; empty where it has
 * none of them. Old identifiers do not count. Throws `PatientUnclear` where several identifiers stand side by side without type.
 */
export function idOfPatient(resource: JsonObject): string {
  const identifiers = objectsAt(resource, 'identifier').filter((one) => textAt(one, 'value').trim() !== '' && textAt(one, 'use') !== 'old')
  const number = identifiers.find((one) => isOfType(one, 'MR')) ?? identifiers[0]
  if (number === undefined) return textAt(resource, 'id')
  const value = textAt(number, 'value')
  const isOnly = new Set(identifiers.map((one) => textAt(one, 'value').trim())).size === 1
  if (!isOfType(number, 'MR') && !isOnly) {
    throw new PatientUnclear(`the Patient has ${identifiers.length} identifiers and none of type MR`)
  }
  return value
}

function idOfReference(reference: string, index: FileIndex, within: JsonObject): string {
  const tail = typeAndId(reference)
  if (tail?.type === 'Patient') {
    const isTaken = index.find(`Patient/${tail.id}`, within).length > 0
    if (isTaken) throw new PatientUnclear('the subject is at another address than the Patient of this file that has the same id')
    return tail.id
  }
  throw new PatientUnclear(`the subject ${quoted(reference)} is no Patient of this file and no reference to one`)
}

/**
 * The patient_id of what is observed: of the Patient its subject means in this file, else the identifier its subject gives, else the id its reference
 * ends in; empty where it has no subject. Throws `PatientUnclear`.
 */
export function idOfSubject(observation: JsonObject, index: FileIndex, within: JsonObject): string {
  if (observation.members.has('focus')) throw new PatientUnclear('it has a focus that is not its patient')
  const subject = objectAt(observation, 'subject')
  if (subject === null) return ''
  const reference = textAt(subject, 'reference')
  const found = reference === '' ? [] : index.find(reference, within)
  if (found.some((one) => textAt(one, 'resourceType') !== 'Patient')) throw new PatientUnclear('the subject is no Patient')
  if (found.some((one) => changedMeaning(one) !== null)) throw new PatientUnclear('the Patient it means has a modifierExtension or implicitRules')
  const ids = [...new Set(found.map(idOfPatient))]
  if (ids.length > 1) throw new PatientUnclear('the subject means several Patients of this file, with different identifiers')
  const [id] = ids
  if (id !== undefined) return id
  const type = textAt(subject, 'type')
  if (type !== '' && type !== 'Patient') throw new PatientUnclear('the subject is no Patient')
  const identifier = textAt(objectAt(subject, 'identifier'), 'value')
  return identifier === '' && reference !== '' ? idOfReference(reference, index, within) : identifier
}
