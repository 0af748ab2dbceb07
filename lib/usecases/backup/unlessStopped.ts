import { dropAllParts } from './parts.ts'

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const

/** Runs work that keeps patients' data in unfinished files: asked to stop half way, the process takes them away first. */
export async function unlessStopped<T>(work: () => Promise<T>): Promise<T> {
  const stop = (): never => {
    dropAllParts()
    process.exit(1)
  }
  for (const signal of SIGNALS) process.once(signal, stop)
  try {
    return await work()
  } finally {
    for (const signal of SIGNALS) process.removeListener(signal, stop)
  }
}
