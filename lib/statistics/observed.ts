/** Times to an event, one place a case, in any order and in one unit. Typed arrays or plain ones. */
export interface Observed {
  /** 0 or above. */
  readonly times: ArrayLike<number>
  /** At the same places: 0 where the case was still open when last seen (censored), 1, 2, ... where something happened. */
  readonly outcomes: ArrayLike<number>
}

/** What is true of all times, found in the one pass that checks them. */
export interface Checked {
  readonly whole: boolean
  /** -1 for no time. */
  readonly greatest: number
  /** Cases by outcome. */
  readonly sizes: readonly number[]
}

/** Throws RangeError for a time below 0 or not finite, an outcome that is not one of 0 to `kinds` - 1, or lengths that differ. */
export function checkObserved({ times, outcomes }: Observed, kinds: number): Checked {
  if (times.length !== outcomes.length) throw new RangeError(`${times.length} times have ${outcomes.length} outcomes`)
  const sizes = new Array<number>(kinds).fill(0)
  let [whole, greatest] = [true, -1]
  for (let at = 0; at < times.length; at++) {
    const time = times[at] as number
    const outcome = outcomes[at] as number
    if (!(time >= 0) || time === Number.POSITIVE_INFINITY) throw new RangeError(`${time} is no time of 0 or above`)
    if (!Number.isInteger(outcome) || outcome < 0 || outcome >= kinds) throw new RangeError(`${outcome} is no outcome from 0 to ${kinds - 1}`)
    if (time > greatest) greatest = time
    if (whole && !Number.isInteger(time)) whole = false
    sizes[outcome] = (sizes[outcome] as number) + 1
  }
  return { whole, greatest, sizes }
}
