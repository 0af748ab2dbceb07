import { expect, test } from 'vitest'
import { isSameStanding, type Standing, standingAt, WARN_IDLE_MS, WARN_LONGEST_MS } from '../../app/_parts/session/standing.ts'

const NOW = 1_000_000_000
const FAR = 10 * 3_600_000
const OPEN: Standing = { kind: 'open' }
const ENDED: Standing = { kind: 'ended' }
const warned = (why: 'idle' | 'longest', inMs: number): Standing => ({ kind: 'warned', why, endsAt: NOW + inMs })

test.each([
  [WARN_IDLE_MS + 1, FAR, OPEN],
  [WARN_IDLE_MS, FAR, warned('idle', WARN_IDLE_MS)],
  [1, FAR, warned('idle', 1)],
  [0, FAR, ENDED],
  [-1, FAR, ENDED],
  [900_000, WARN_LONGEST_MS + 1, OPEN],
  [900_000, WARN_LONGEST_MS, warned('longest', WARN_LONGEST_MS)],
  [900_000, 1, warned('longest', 1)],
  [900_000, 0, ENDED],
  // Both near: the one that comes first is what a person must know.
  [60_000, 90_000, warned('idle', 60_000)],
  [90_000, 60_000, warned('longest', 60_000)],
  // Nine minutes before the longest end the idle one is still further away than its warning.
  [14 * 60_000, 9 * 60_000, warned('longest', 9 * 60_000)],
  [5 * 60_000, 9 * 60_000, warned('longest', 9 * 60_000)],
])('idle in %i ms and at the longest in %i ms', (idle, longest, standing) => {
  expect(standingAt({ idleAt: NOW + idle, longestAt: NOW + longest }, NOW)).toEqual(standing)
})

test('a warning is said anew only when it says something else', () => {
  expect(isSameStanding(warned('idle', 1000), warned('idle', 1999))).toBe(true)
  expect(isSameStanding(warned('idle', 1000), warned('idle', 2000))).toBe(false)
  expect(isSameStanding(warned('idle', 1000), warned('longest', 1000))).toBe(false)
  expect(isSameStanding(OPEN, OPEN)).toBe(true)
  expect(isSameStanding(OPEN, ENDED)).toBe(false)
})
