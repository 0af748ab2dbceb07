const MOST_REMEMBERED = 20_000
/** Longer texts are rare, and would fill the memory. */
const LONGEST_REMEMBERED = 100

/**
 * The same answers as `read`, each worked out once while it is remembered: the rows of a file repeat a few thousand values. `read` depends on its texts
 * alone, and nobody changes what it answers.
 */
export function remembered<Read>(read: (a: string, b: string, c: string) => Read): (a: string, b: string, c: string) => Read {
  const known = new Map<string, Read>()
  return (a, b, c) => {
    if (a.length + b.length + c.length > LONGEST_REMEMBERED) return read(a, b, c)
    const key = `${a.length} ${b.length} ${a}${b}${c}`
    const found = known.get(key)
    if (found !== undefined) return found
    const fresh = read(a, b, c)
    if (known.size >= MOST_REMEMBERED) known.clear()
    known.set(key, fresh)
    return fresh
  }
}
