/** The process apart that takes uploaded files in: one request, words of progress, one answer, the end. */
import { openStore } from '../store/index.ts'
import { type ApartRequest, type ApartWord, acceptFiles } from '../usecases/index.ts'

function say(word: ApartWord): void {
  process.send?.(word)
}

process.once('message', async ({ databaseUrl, call, files, source, dryRun }: ApartRequest) => {
  const store = await openStore(databaseUrl)
  try {
    const onProgress = (progress: Extract<ApartWord, { kind: 'progress' }>['progress']) => say({ kind: 'progress', progress })
    say({ kind: 'answer', outcome: await acceptFiles({ store, ...call }, files, { source, dryRun, onProgress }) })
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    say({ kind: 'answer', outcome: { ok: false, kind: 'unavailable', reason: `The files could not be taken in: ${reason}` } })
  } finally {
    await store.close()
    process.disconnect()
  }
})
