/** A number with its source text: `1.0` is not `1`, and no digit is lost to binary floating point. */
export interface JsonNumber {
  readonly kind: 'number'
  readonly text: string
}

/** An object whose keys are words only (`__proto__` too), and where in the text it stands: first character, and the one behind its last. */
export interface JsonObject {
  readonly kind: 'object'
  readonly members: ReadonlyMap<string, Json>
  readonly from: number
  readonly to: number
}

export type Json = string | boolean | null | JsonNumber | JsonObject | readonly Json[]

export function isList(value: Json | undefined): value is readonly Json[] {
  return Array.isArray(value)
}

export function isObject(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !isList(value) && value.kind === 'object'
}

export function isNumber(value: Json | undefined): value is JsonNumber {
  return typeof value === 'object' && value !== null && !isList(value) && value.kind === 'number'
}
