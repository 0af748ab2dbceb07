/** The process apart that takes uploaded files in: one request, words of progress, one answer, the end. */
import { openStore } from '../store/index.ts'
import { type ApartRequest, type ApartWord, acceptFiles } from '../usecases/index.ts'

/** Resolves when the word has left this process: ending earlier would cut a long answer off. Nobody may be there to hear it; the work is done all the same. */
function say(word: ApartWord): Promise<void> {
  return new Promise((resolve) => {
    process.send?.(word, undefined, undefined, () => resolve())
  })
}

type Answer = Extract<ApartWord, { kind: 'answer' }>['outcome']

async function answerTo({ databaseUrl, call, files, source, dryRun }: ApartRequest): Promise<Answer> {
  const store = await openStore(databaseUrl)
  try {
    return await acceptFiles({ store, ...call }, files, { source, dryRun, onProgress: (progress) => void say({ kind: 'progress', progress }) })
  } finally {
    await store.close()
  }
}

function unavailable(error: unknown): Answer {
  const reason = error instanceof Error ? error.message : String(error)
  return { ok: false, kind: 'unavailable', reason: `The files could not be taken in: ${reason}` }
}

process.once('message', async (request: ApartRequest) => {
  await say({ kind: 'answer', outcome: await answerTo(request).catch(unavailable) })
  if (process.connected) process.disconnect()
})
