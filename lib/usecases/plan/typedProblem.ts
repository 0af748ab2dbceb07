const SHORTEST = 3
const LONGEST = 1000

/** What is wrong with the note or reason a person typed about a plan, blanks around it taken off; null where nothing is. */
export function typedProblem(typed: string): string | null {
  if (typed.length < SHORTEST) return 'is missing: it says why, and is kept'
  return typed.length > LONGEST ? `is longer than ${LONGEST} characters` : null
}
