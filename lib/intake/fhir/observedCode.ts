import type { JsonObject } from '../json/json.ts'
import { analyteOfCode, whyNeverMapped } from '../loinc.ts'
import { objectAt, objectsAt, textAt } from './element.ts'

const LOINC = 'http://loinc.org'

/** A text that is no LOINC code must not be taken for one. */
const notLoinc = (said: string): string => (analyteOfCode(said.trim()) === null && whyNeverMapped(said.trim()) === null ? said : `text ${said}`)

function withoutLoinc(code: JsonObject, codings: readonly JsonObject[]): string {
  const [coding] = codings
  if (coding === undefined) return notLoinc(textAt(code, 'text'))
  const said = textAt(code, 'text') || textAt(coding, 'display')
  const local = `${textAt(coding, 'system') || 'no system'}|${textAt(coding, 'code')}`
  return said === '' ? local : `${local} ${said}`
}

/**
 * The code of an Observation or component: its LOINC coding. Of several the one that names an analyte, unless they name different ones or one of them
 * something else: then all of them, which no analyte has. Without LOINC: system, code and text, which wait for a person. Empty where there is no code.
 */
export function observedCode(observed: JsonObject): string {
  const code = objectAt(observed, 'code')
  if (code === null) return ''
  const codings = objectsAt(code, 'coding')
  const loinc = codings.filter((coding) => textAt(coding, 'system') === LOINC).map((coding) => textAt(coding, 'code'))
  const known = [...new Set(loinc.filter((one) => one !== ''))]
  const never = known.find((one) => whyNeverMapped(one) !== null)
  if (known.length === 0) return withoutLoinc(code, codings)
  if (never !== undefined) return never
  const mapped = known.filter((one) => analyteOfCode(one) !== null)
  const isOneAnalyte = new Set(mapped.map(analyteOfCode)).size === 1
  return isOneAnalyte ? (mapped[0] ?? '') : known.join(', ')
}
