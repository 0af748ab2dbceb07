/** A share as its page says it: one decimal, as much as any interval here is worth. */
export function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`
}

/** A 95 % interval of a share. */
export function percentInterval([low, high]: readonly [low: number, high: number]): string {
  return `${(100 * low).toFixed(1)} to ${percent(high)}`
}

/** Days, which are halves or tenths where they lie between two people's. */
export function inDays(days: number): string {
  const text = Number.isInteger(days) ? String(days) : days.toFixed(1)
  return `${text} ${text === '1' ? 'day' : 'days'}`
}

/** A difference in words: "3 more", "2 fewer". */
export function moreOrFewer(difference: number): string {
  if (difference === 0) return 'as many'
  return difference > 0 ? `${difference} more` : `${-difference} fewer`
}
