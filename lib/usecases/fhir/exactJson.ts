/** A number with the digits it was reported with: in binary, 14.20 would come out as 14.2, and a long one as another number. */
export class ExactNumber {
  readonly digits: string
  /** Throws RangeError for digits that spell no number of JSON (RFC 8259). */
  constructor(digits: string) {
    if (!/^-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?$/.test(digits)) throw new RangeError(`"${digits}" is no number of JSON`)
    this.digits = digits
  }
}

function inside(value: object, indent: string): string {
  const deeper = `${indent}  `
  const isList = Array.isArray(value)
  const parts = isList
    ? value.map((one) => written(one, deeper))
    : Object.entries(value).flatMap(([name, one]) => (one === undefined ? [] : [`${JSON.stringify(name)}: ${written(one, deeper)}`]))
  const [open, close] = isList ? '[]' : '{}'
  return parts.length === 0 ? `${open}${close}` : `${open}\n${deeper}${parts.join(`,\n${deeper}`)}\n${indent}${close}`
}

function written(value: unknown, indent: string): string {
  if (value instanceof ExactNumber) return value.digits
  return typeof value === 'object' && value !== null ? inside(value, indent) : (JSON.stringify(value) ?? 'null')
}

/** JSON (RFC 8259) with exact numbers as they are spelt, indented by two blanks, ending with a line end. */
export function exactJson(value: object): string {
  return `${written(value, '')}\n`
}
