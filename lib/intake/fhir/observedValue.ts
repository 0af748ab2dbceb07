import type { JsonObject } from '../json/json.ts'
import type { RowFields } from '../row.ts'
import { BadElement, numberAt, objectAt, objectsAt, textAt, wordsOf } from './element.ts'

const UCUM = 'http://unitsofmeasure.org'
const QUANTITY = 'valueQuantity'
const LONGEST_KIND = 40

/** The unit of a Quantity: its UCUM code, else its unit as received. */
const unitOf = (quantity: JsonObject): string => (textAt(quantity, 'system') === UCUM ? textAt(quantity, 'code') : '') || textAt(quantity, 'unit')

/** A number with its comparator, both as received. `ad` (sufficient to reach this amount) is no interval and reads as none. */
function quantityText(quantity: JsonObject): string {
  const [comparator, value] = [textAt(quantity, 'comparator'), numberAt(quantity, 'value')]
  return comparator === '' || /^[<>]=?$/.test(comparator) ? `${comparator}${value}` : `${comparator} ${value}`
}

/** The elements value[x] of an Observation or component. */
export function valueElements(observed: JsonObject): readonly string[] {
  return [...observed.members.keys()].filter((key) => /^value[A-Z]/.test(key))
}

/** Whether it says something of its own: a value, or why there is none. */
export function saysSomething(observed: JsonObject): boolean {
  return valueElements(observed).length > 0 || observed.members.has('dataAbsentReason')
}

function limitText(range: JsonObject, name: 'low' | 'high', unit: string): string {
  const limit = objectAt(range, name)
  if (limit === null) return ''
  const own = unitOf(limit)
  // In another unit than the value it is no number in the unit of the value, and reads as none.
  return own === '' || own === unit ? quantityText(limit) : `${quantityText(limit)} ${own}`
}

/** The limits, where there is one range that holds for this person: none of several, and none that is for a group or a goal. */
function limitFields(observed: JsonObject, unit: string): RowFields {
  const isNormal = (range: JsonObject) => {
    const codes = objectsAt(objectAt(range, 'type'), 'coding').map((coding) => textAt(coding, 'code'))
    return codes.length === 0 || codes.includes('normal')
  }
  const ranges = objectsAt(observed, 'referenceRange').filter((range) => isNormal(range) && (range.members.has('low') || range.members.has('high')))
  const [range] = ranges
  if (range === undefined || ranges.length > 1) return {}
  return { reference_low: limitText(range, 'low', unit), reference_high: limitText(range, 'high', unit) }
}

/** The columns value, unit and limits, or `absent_reason`, or the kind of value that is not read. Throws `BadElement`. */
export function valueFields(observed: JsonObject): RowFields {
  const [element, another] = valueElements(observed)
  const absent = objectAt(observed, 'dataAbsentReason')
  if (another !== undefined) throw new BadElement('value[x]', 'one value, not two')
  if (element !== undefined && absent !== null) throw new BadElement('dataAbsentReason', 'to be absent where there is a value')
  if (element === undefined) {
    const code = objectsAt(absent, 'coding').map((coding) => textAt(coding, 'code'))[0] ?? ''
    return absent === null ? { value: '' } : { value: '', absent_reason: wordsOf(absent) || code || 'no reason given' }
  }
  if (element === 'valueString') return { value: textAt(observed, element) }
  if (element === 'valueCodeableConcept') {
    const concept = objectAt(observed, element)
    const words = wordsOf(concept)
    return words === '' ? { value: '', value_kind: 'valueCodeableConcept without words' } : { value: words }
  }
  const quantity = element === QUANTITY ? objectAt(observed, element) : null
  if (quantity === null) return { value: '', value_kind: element.slice(0, LONGEST_KIND) }
  const unit = unitOf(quantity)
  return { value: quantityText(quantity), unit, ...limitFields(observed, unit) }
}
