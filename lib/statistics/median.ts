/** The middle of numbers in any order; the mean of the two middle ones where their count is even. Throws RangeError for none. */
export function median(numbers: readonly number[]): number {
  if (numbers.length === 0) throw new RangeError('no number has a median')
  const sorted = [...numbers].sort((a, b) => a - b)
  const half = Math.floor(sorted.length / 2)
  const upper = sorted[half] as number
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2
}
