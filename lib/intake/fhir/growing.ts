/** A list of whole numbers up to 2 ** 32 - 1 that takes four bytes for each. */
export class Growing {
  private values = new Uint32Array(64)
  length = 0

  push(value: number): void {
    if (this.length === this.values.length) {
      const wider = new Uint32Array(this.length * 2)
      wider.set(this.values)
      this.values = wider
    }
    this.values[this.length++] = value
  }

  at(place: number): number {
    return place < this.length ? (this.values[place] ?? 0) : 0
  }

  /** The last place whose value is at most `most`, in a list that ascends; -1 where there is none. */
  lastUpTo(most: number): number {
    let [from, to] = [0, this.length]
    while (from < to) {
      const middle = (from + to) >>> 1
      if (this.at(middle) <= most) from = middle + 1
      else to = middle
    }
    return from - 1
  }
}
