const FREE_FAILURES = 4
const FIRST_WAIT_SECONDS = 30
/** No wait is longer, whatever the clock does. */
export const LONGEST_WAIT_SECONDS = 15 * 60

/** Failed tries count against the network address they came from for this long. Ours. */
export const ADDRESS_WINDOW_MS = 15 * 60_000
/**
 * With so many in that time, a password alone signs nobody in from that address until the oldest have passed. Far above what the people of a clinic
 * mistype, who all come from one address behind a proxy. Ours.
 */
export const MOST_FAILURES_OF_ADDRESS = 300

/**
 * Seconds to wait before the next try after so many failures in a row: none for the first four, then 30 seconds, doubling, never above 15 minutes,
 * so that nobody can lock another person out for good. With the longest wait at most 100 tries a day (NIST SP 800-63B-4, 3.2.2: limit the rate).
 */
export function signInWaitSeconds(failures: number): number {
  if (failures <= FREE_FAILURES) return 0
  return Math.min(LONGEST_WAIT_SECONDS, FIRST_WAIT_SECONDS * 2 ** (failures - FREE_FAILURES - 1))
}
