/** Whole numbers from 0 below 2^32, as many as there come, at four bytes each. */
export interface Growing {
  push(value: number): void
  /** The first `count` of them. */
  first(count: number): Uint32Array
}

export function growing(): Growing {
  let values = new Uint32Array(1024)
  let length = 0
  return {
    push(value) {
      if (length === values.length) {
        const wider = new Uint32Array(length * 2)
        wider.set(values)
        values = wider
      }
      values[length++] = value
    },
    first: (count) => values.subarray(0, count),
  }
}
