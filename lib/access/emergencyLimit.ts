/** An emergency view of a closed record ends this long after it was opened. */
export const EMERGENCY_MS = 60 * 60_000

/** Does an emergency view still run at `now`? It was ended by hand at `endedAt`, or ends at `untilAt`, the first moment it does not run. UTC, ISO 8601. */
export function emergencyRuns({ untilAt, endedAt }: { readonly untilAt: string; readonly endedAt: string | null }, now: string): boolean {
  return endedAt === null && now < untilAt
}
