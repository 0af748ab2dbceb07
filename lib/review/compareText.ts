/** -1, 0 or 1 by Unicode code points: the order of a database that compares bytes of UTF-8, which UTF-16 units do not give. */
export function compareText(a: string, b: string): number {
  const [one, other] = [[...a], [...b]]
  for (const [at, char] of one.entries()) {
    const against = other[at]
    if (against === undefined) return 1
    const apart = (char.codePointAt(0) ?? 0) - (against.codePointAt(0) ?? 0)
    if (apart !== 0) return apart < 0 ? -1 : 1
  }
  return one.length < other.length ? -1 : 0
}
