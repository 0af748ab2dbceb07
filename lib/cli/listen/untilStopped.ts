const LOOK_EVERY_MS = 500

/**
 * Resolves when this process is asked to end: by SIGINT or SIGTERM, or because the npm that started it is gone. Killed, npm tells its program nothing,
 * and a listener nobody can stop any more would keep the port.
 */
export function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    const parent = process.ppid
    const looking = setInterval(() => {
      if (process.env.npm_lifecycle_event !== undefined && process.ppid !== parent) stop()
    }, LOOK_EVERY_MS)
    function stop(): void {
      clearInterval(looking)
      process.off('SIGINT', stop).off('SIGTERM', stop)
      resolve()
    }
    process.once('SIGINT', stop).once('SIGTERM', stop)
  })
}
