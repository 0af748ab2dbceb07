import { failureSays, openStore, type Store } from '../store/index.ts'
import type { CallApart, Outcome, WordApart } from '../usecases/index.ts'

type Progress<T> = Extract<WordApart<T>, { kind: 'progress' }>['progress']

/** Resolves when the word has left this process: ending earlier would cut a long answer off. Nobody may be there to hear it; the work is done all the same. */
function say<T>(word: WordApart<T>): Promise<void> {
  return new Promise((resolve) => {
    process.send?.(word, undefined, undefined, () => resolve())
  })
}

/** The life of a process apart: one request, words of progress, one answer, the end. `failed` begins the reason where the work throws. */
export function answerApart<R extends CallApart, T>(
  failed: string,
  work: (store: Store, request: R, onProgress: (progress: Progress<T>) => void) => Promise<Outcome<T>>,
): void {
  const answerTo = async (request: R): Promise<Outcome<T>> => {
    const store = await openStore(request.databaseUrl)
    try {
      return await work(store, request, (progress) => void say<T>({ kind: 'progress', progress }))
    } finally {
      await store.close()
    }
  }
  const unavailable = (error: unknown): Outcome<T> => {
    return { ok: false, kind: 'unavailable', reason: `${failed}: ${failureSays(error)}` }
  }
  process.once('message', async (request: R) => {
    await say<T>({ kind: 'answer', outcome: await answerTo(request).catch(unavailable) })
    if (process.connected) process.disconnect()
  })
}
