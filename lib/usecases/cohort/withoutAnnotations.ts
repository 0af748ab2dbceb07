/** UCUM lets a unit carry any text in braces ("g/L{anything}"), and a sentence prints the unit a laboratory printed. */
const ANNOTATION = /\{[^{}]*\}/g

/** The same view with every text in it free of what stands in braces. */
export function withoutAnnotations<T>(view: T): T {
  return plain(view) as T
}

function plain(value: unknown): unknown {
  if (typeof value === 'string') return value.replace(ANNOTATION, '')
  if (Array.isArray(value)) return value.map(plain)
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(Object.entries(value).map(([name, inside]) => [name, plain(inside)]))
}
