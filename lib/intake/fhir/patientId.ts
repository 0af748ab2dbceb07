import { apart } from '../json/apart.ts'
import type { JsonObject } from '../json/json.ts'
import { quoted } from '../quoted.ts'
import { changedMeaning } from './changedMeaning.ts'
import { objectAt, objectsAt, textAt, textIfAny } from './element.ts'
import type { FileIndex, Subject } from './fileIndex.ts'
import { isOfType } from './identifierType.ts'
import { typeAndId } from './reference.ts'

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
    const [other] = index.find(`Patient/${tail.id}`, within)
    if (other !== undefined) throw new PatientUnclear('the subject is at another address than the Patient of this file that has the same id')
    return tail.id
  }
  throw new PatientUnclear(`the subject ${quoted(reference)} is no Patient of this file and no reference to one`)
}

/** Whom the resources are that a reference means: null for nobody. Throws `BadElement` and `PatientUnclear`. */
function idOfAll(found: Iterable<JsonObject>): string | null {
  const ids = new Set<string>()
  let [isOther, isChanged, fault]: [boolean, boolean, unknown] = [false, false, null]
  for (const one of found) {
    isOther ||= textIfAny(one, 'resourceType') !== 'Patient'
    if (isOther) break
    isChanged ||= changedMeaning(one) !== null
    try {
      if (!isChanged && fault === null && ids.size < 2) ids.add(idOfPatient(one))
    } catch (error) {
      fault = error
    }
  }
  if (isOther) throw new PatientUnclear('the subject is no Patient')
  if (isChanged) throw new PatientUnclear('the Patient it means has a modifierExtension or implicitRules')
  if (fault !== null) throw fault
  if (ids.size > 1) throw new PatientUnclear('the subject means several Patients of this file, with different identifiers')
  const [id = null] = ids
  return id === null ? null : apart(id)
}

/** References whose answer is remembered: a file may bring the same Patient again beside each of its results. */
const MOST_REMEMBERED = 10_000

function idOfFound(reference: string, index: FileIndex, within: JsonObject): string | null {
  if (reference === '') return null
  if (reference.startsWith('#')) return idOfAll(index.find(reference, within))
  const { subjects } = index
  if (subjects.size >= MOST_REMEMBERED) subjects.clear()
  const remembered = subjects.get(reference)
  const answer = remembered ?? attempted(() => idOfAll(index.find(reference, within)))
  if (remembered === undefined) subjects.set(apart(reference), answer)
  if ('fault' in answer) throw answer.fault
  return answer.id
}

function attempted(read: () => string | null): Subject {
  try {
    return { id: read() }
  } catch (fault) {
    return { fault }
  }
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
  const id = idOfFound(reference, index, within)
  if (id !== null) return id
  const type = textAt(subject, 'type')
  if (type !== '' && type !== 'Patient') throw new PatientUnclear('the subject is no Patient')
  const identifier = textAt(objectAt(subject, 'identifier'), 'value')
  return identifier === '' && reference !== '' ? idOfReference(reference, index, within) : identifier
}
