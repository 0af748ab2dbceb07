/** More entries than a file can sensibly have, so that what is kept of each stays small; and a place fits beside its hash. (ours) */
export const MOST_ENTRIES = 2 ** 22

/** FNV-1a over the characters, mixed once more, 31 bits. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193)
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d)
  return (hash ^ (hash >>> 13)) >>> 1
}

/**
 * Which places may have a key: eight bytes for each, not the key itself. Two keys may share a hash, so who asks compares the keys. First all are added, then
 * it is asked.
 */
export class KeyTable {
  private pairs = new Float64Array(64)
  private length = 0
  private isSorted = true

  add(key: string, place: number): void {
    if (this.length === this.pairs.length) {
      const wider = new Float64Array(this.length * 2)
      wider.set(this.pairs)
      this.pairs = wider
    }
    this.pairs[this.length++] = hashOf(key) * MOST_ENTRIES + place
    this.isSorted = false
  }

  /** The places that may have a key, each once, ascending. */
  *placesOf(key: string): Generator<number> {
    if (!this.isSorted) {
      this.pairs.subarray(0, this.length).sort()
      this.isSorted = true
    }
    const least = hashOf(key) * MOST_ENTRIES
    let before = -1
    for (let at = this.firstFrom(least); at < this.length; at++) {
      const place = (this.pairs[at] ?? 0) - least
      if (place >= MOST_ENTRIES) return
      if (place !== before) yield place
      before = place
    }
  }

  private firstFrom(least: number): number {
    let [from, to] = [0, this.length]
    while (from < to) {
      const middle = (from + to) >>> 1
      if ((this.pairs[middle] ?? 0) < least) from = middle + 1
      else to = middle
    }
    return from
  }
}
