/** One part of the study in a process of its own: says courses in lots as they are done. */
import { type Simulated, simulateAll } from './simulate.ts'

export interface Part {
  readonly courses: number
  readonly seed: number
  readonly part: number
  readonly parts: number
}

/** Courses are sent in lots, since a message each would cost more than the courses. */
const LOT = 50

/** Resolves when the lot has left this process: going on or ending earlier would pile lots up or cut the last one off. */
function say(lot: readonly Simulated[]): Promise<void> {
  return new Promise((resolve) => {
    process.send?.(lot, undefined, undefined, () => resolve())
  })
}

// Without anybody to tell there is nothing to do.
process.once('disconnect', () => process.exit())
process.once('message', async ({ courses, seed, part, parts }: Part) => {
  let lot: Simulated[] = []
  for (const simulated of simulateAll(courses, seed, part, parts)) {
    lot.push(simulated)
    if (lot.length < LOT) continue
    await say(lot)
    lot = []
  }
  await say(lot)
  process.disconnect()
})
