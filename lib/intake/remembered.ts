const MOST_REMEMBERED = 20_000
/** Longer texts are rare, and would fill the memory. */
const LONGEST_REMEMBERED = 100

/**
 * The same answers as `read`, each worked out once while it is remembered: the rows of a file repeat a few thousand values. `read` depends on its texts
 * alone, and nobody changes what it answers.
 */
export function remembered<Read>(read: (a: string, b: string, c: string) => Read): (a: string, b: string, c: string) => Read {
  // From the text with the fewest values to the one with the most: joining them to one key would take longer than reading a plain number.
  const known = new Map<string, Map<string, Map<string, Read>>>()
  let count = 0
  const under = (b: string, c: string): Map<string, Read> => {
    const ofC = known.get(c) ?? new Map<string, Map<string, Read>>()
    const ofB = ofC.get(b) ?? new Map<string, Read>()
    known.set(c, ofC.set(b, ofB))
    return ofB
  }
  return (a, b, c) => {
    if (a.length + b.length + c.length > LONGEST_REMEMBERED) return read(a, b, c)
    const found = known.get(c)?.get(b)?.get(a)
    if (found !== undefined) return found
    const fresh = read(a, b, c)
    if (count >= MOST_REMEMBERED) {
      known.clear()
      count = 0
    }
    count += 1
    under(b, c).set(a, fresh)
    return fresh
  }
}
