import { expect, test } from 'vitest'
import { IDLE_MS, LONGEST_MS, sessionOver, signInWaitSeconds } from '../../lib/access/index.ts'

test.each([
  [0, 0],
  [4, 0],
  [5, 30],
  [6, 60],
  [9, 480],
  [10, 900],
  [11, 900],
  [1000, 900],
])('after %i failures the next try waits %i seconds, never for good', (failures, seconds) => {
  expect(signInWaitSeconds(failures)).toBe(seconds)
})

test.each([
  ['just signed in', 0, 0, 0, null],
  ['a moment short of 15 minutes idle', 0, 0, IDLE_MS - 1, null],
  ['15 minutes idle', 0, 0, IDLE_MS, 'idle'],
  ['a moment short of 12 hours', 0, LONGEST_MS - 1000, LONGEST_MS - 1, null],
  ['12 hours, busy to the last', 0, LONGEST_MS - 1000, LONGEST_MS, 'too-long'],
] as const)('%s', (_, created, seen, now, over) => {
  expect(sessionOver(created, seen, now)).toBe(over)
})
