/** Asks of a number of steps; asked for the same number, it answers the same. */
export type Asked = (steps: number) => boolean

/**
 * A number of steps in `[from, to]` that holds while the one before it does not; null where `to` does not hold, or `from` does. Looks first at the guesses,
 * then halves what they leave of the range, so that both answers were asked for and none is inferred.
 */
export function firstThatHolds(holds: Asked, from: number, to: number, guesses: readonly number[] = []): number | null {
  if (from >= to || !holds(to)) return null
  let [below, above] = [from, to]
  for (const guess of guesses) {
    if (guess <= below || guess > above) continue
    if (!holds(guess)) below = guess
    else if (!holds(guess - 1)) return guess
    else if (guess - 1 === from) return null
    else above = guess - 1
  }
  if (below === from && holds(from)) return null
  while (above - below > 1) {
    const middle = Math.floor((below + above) / 2)
    if (holds(middle)) above = middle
    else below = middle
  }
  return above
}

/** The same downwards: the largest number of steps that holds while the one after it does not. */
export function lastThatHolds(holds: Asked, from: number, to: number, guesses: readonly number[] = []): number | null {
  const found = firstThatHolds(
    (mirrored) => holds(-mirrored),
    -to,
    -from,
    guesses.map((guess) => -guess),
  )
  return found === null ? null : -found
}

/** Remembers what was asked. */
export function remembered(ask: Asked): Asked {
  const known = new Map<number, boolean>()
  return (steps) => {
    const before = known.get(steps)
    if (before !== undefined) return before
    const answer = ask(steps)
    known.set(steps, answer)
    return answer
  }
}
