import { setTimeout as pause } from 'node:timers/promises'

/** Runs tasks one after another in the order they came. A task that fails does not stop those behind it. */
export interface Queue {
  run<T>(task: () => Promise<T>): Promise<T>
  /** Resolves when everything that was waiting has ended. */
  idle(): Promise<void>
}

export function queue(): Queue {
  let last: Promise<unknown> = Promise.resolve()
  let waiting = 0
  return {
    run(task) {
      waiting += 1
      const turn = last.then(task)
      // A breath before the next one, or another program that writes to the same file would never find the lock free.
      last = turn
        .catch(() => undefined)
        .then(() => {
          waiting -= 1
          return waiting > 0 ? pause(1) : undefined
        })
      return turn
    },
    async idle() {
      while (waiting > 0) await last
    },
  }
}
