/** The process apart that holds the whole cohort against a plan: one request, words of progress, one answer, the end. */
import { openStore } from '../store/index.ts'
import { type PlanApartRequest, type PlanApartWord, renewStandings, tryPlan } from '../usecases/index.ts'

/** Resolves when the word has left this process. Nobody may be there to hear it. */
function say(word: PlanApartWord): Promise<void> {
  return new Promise((resolve) => {
    process.send?.(word, undefined, undefined, () => resolve())
  })
}

type Answer = Extract<PlanApartWord, { kind: 'answer' }>['outcome']

async function answerTo({ databaseUrl, call: given, trial }: PlanApartRequest): Promise<Answer> {
  const store = await openStore(databaseUrl)
  const call = { store, ...given }
  try {
    if (trial !== null) return await tryPlan(call, trial, (progress) => void say({ kind: 'progress', progress }))
    await renewStandings(call)
    return { ok: true, value: null }
  } finally {
    await store.close()
  }
}

function unavailable(error: unknown): Answer {
  const reason = error instanceof Error ? error.message : String(error)
  return { ok: false, kind: 'unavailable', reason: `The patients could not be evaluated: ${reason}` }
}

process.once('message', async (request: PlanApartRequest) => {
  await say({ kind: 'answer', outcome: await answerTo(request).catch(unavailable) })
  if (process.connected) process.disconnect()
})
