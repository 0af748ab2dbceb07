import { parseBirthDate, parseMoment } from '../../time/index.ts'
import type { JsonObject } from '../json/json.ts'
import type { RowFields } from '../row.ts'
import { flagAt, objectsAt, textAt, textsAt } from './element.ts'
import { idOfPatient } from './patientId.ts'

const NAME_ORDER = ['official', 'usual', '']
const NOT_NOW = ['old', 'maiden', 'temp', 'nickname', 'anonymous']

function nameOf(resource: JsonObject): { readonly family: string; readonly given: string } {
  const names = objectsAt(resource, 'name')
  const use = (name: JsonObject) => textAt(name, 'use')
  const ordered = NAME_ORDER.flatMap((wanted) => names.filter((name) => use(name) === wanted))
  const name = ordered[0] ?? names.find((one) => !NOT_NOW.includes(use(one)))
  if (name === undefined) return { family: '', given: '' }
  const [family, given] = [textAt(name, 'family'), textsAt(name, 'given').join(' ')]
  return family === '' && given === '' ? { family: textAt(name, 'text'), given: '' } : { family, given }
}

/** The day of death as far as a row takes it: a day, or the day of a time. A month or year alone leaves it empty; anything else is kept to be refused. */
function dayOfDeath(text: string): string {
  if (text.length < 10 && parseBirthDate(text) !== null) return ''
  return parseMoment(text)?.on ?? text
}

/** The columns of a row of patients. Throws `BadElement` and `PatientUnclear`. */
export function patientFields(resource: JsonObject): RowFields {
  const { family, given } = nameOf(resource)
  const deceasedOn = textAt(resource, 'deceasedDateTime')
  const isDead = flagAt(resource, 'deceasedBoolean') === true || deceasedOn !== ''
  return {
    patient_id: idOfPatient(resource),
    family_name: family,
    given_name: given,
    birth_date: textAt(resource, 'birthDate'),
    sex: textAt(resource, 'gender'),
    status: isDead ? 'died' : '',
    status_on: deceasedOn === '' ? '' : dayOfDeath(deceasedOn),
  }
}

/** Why a record stands for nobody any more: not active, or replaced by another. Empty where it is in use. */
export function whyNotInUse(resource: JsonObject): string {
  if (flagAt(resource, 'active') === false) return 'is not active'
  return objectsAt(resource, 'link').some((link) => textAt(link, 'type') === 'replaced-by') ? 'was replaced by another' : ''
}
