import { isList, isNumber, isObject, type Json, type JsonObject } from '../json/json.ts'

/** Raised inside this folder only: an element is not what FHIR R4 has there. */
export class BadElement extends Error {
  readonly element: string
  readonly needs: string
  constructor(element: string, needs: string) {
    super(`${element} needs ${needs}`)
    this.element = element
    this.needs = needs
  }
}

function sound<Read>(of: JsonObject, key: string, needs: string, read: (value: Json) => Read | undefined): Read | null {
  const value = of.members.get(key)
  if (value === undefined) return null
  const found = read(value)
  if (found === undefined) throw new BadElement(key, needs)
  return found
}

/** The text of an element, empty where it is absent. Throws `BadElement` for anything but a text. */
export function textAt(of: JsonObject | null, key: string): string {
  return of === null ? '' : (sound(of, key, 'a text in double quotes', (value) => (typeof value === 'string' ? value : undefined)) ?? '')
}

/** The source text of a number, empty where it is absent. Throws `BadElement` for anything but a number. */
export function numberAt(of: JsonObject, key: string): string {
  return sound(of, key, 'a number without quotes', (value) => (isNumber(value) ? value.text : undefined)) ?? ''
}

/** True or false, null where it is absent. Throws `BadElement` for anything else. */
export function flagAt(of: JsonObject, key: string): boolean | null {
  return sound(of, key, 'true or false', (value) => (typeof value === 'boolean' ? value : undefined))
}

/** The object of an element, null where it is absent. Throws `BadElement` for anything else. */
export function objectAt(of: JsonObject | null, key: string): JsonObject | null {
  return of === null ? null : sound(of, key, 'an object', (value) => (isObject(value) ? value : undefined))
}

/** The objects of a repeating element, none where it is absent. Throws `BadElement` for anything else. */
export function objectsAt(of: JsonObject | null, key: string): readonly JsonObject[] {
  return of === null ? [] : (sound(of, key, 'a list of objects', (value) => (isList(value) && value.every(isObject) ? value : undefined)) ?? [])
}

/** The texts of a repeating element, without the gaps (null) an extension may leave. Throws `BadElement` for anything else. */
export function textsAt(of: JsonObject, key: string): readonly string[] {
  const texts = (value: Json) => (isList(value) && value.every((one) => typeof one === 'string' || one === null) ? value : undefined)
  return (sound(of, key, 'a list of texts', texts) ?? []).flatMap((one) => (typeof one === 'string' ? [one] : []))
}

/** The text of an element where it is one, else empty; for what must not fail, such as the index of a file. */
export function textIfAny(of: JsonObject | null, key: string): string {
  const value = of?.members.get(key)
  return typeof value === 'string' ? value : ''
}

/** The objects in an element where it is a list, else none; for what must not fail. */
export function objectsIfAny(of: JsonObject | null, key: string): readonly JsonObject[] {
  const value = of?.members.get(key)
  return isList(value) ? value.filter(isObject) : []
}

/** A concept in words: its text, else the first display, else empty. */
export function wordsOf(concept: JsonObject | null): string {
  if (concept === null) return ''
  return (
    textAt(concept, 'text') ||
    (objectsAt(concept, 'coding')
      .map((coding) => textAt(coding, 'display'))
      .find((display) => display !== '') ??
      '')
  )
}
