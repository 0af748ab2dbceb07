import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { type Call, consoleCall, demonstrationAccounts, endRound, fillDemonstration, showList, startRound } from '../../lib/usecases/index.ts'
import { copyDatabase, placeFor, withDatabase } from '../databases.ts'
import { FIRST_PAGE } from '../reviewList.ts'

export type SignIn = Extract<Awaited<ReturnType<typeof demonstrationAccounts>>, { ok: true }>['value'][number]

/** A database of invented patients and who may sign in to it. */
export interface FilledFor {
  readonly patients: number
  /** The file it was filled in, closed; and the database of the engine that is measured. */
  readonly path: string
  readonly url: string
  readonly signIns: readonly SignIn[]
}

type Answer<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: string }

export function answered<T>(answer: Answer<T>): T {
  if (!answer.ok) throw new Error(answer.reason)
  return answer.value
}

/** A clinic in its second round: the list says what is new since the first, for which it asks more than before any round ended. */
export async function inSecondRound(call: Call): Promise<void> {
  const { roundId } = answered(await startRound(call))
  answered(await endRound(call, { roundId }))
  answered(await startRound(call))
}

async function fill(path: string, signInsAt: string, patients: number): Promise<void> {
  await withDatabase(path, async (call) => {
    answered(await fillDemonstration(consoleCall(call.store, 'bench'), { patients, years: patients > 1000 ? 1 : 8, seed: 20_261_125 }))
    writeFileSync(signInsAt, JSON.stringify(answered(await demonstrationAccounts(call))))
    await inSecondRound(call)
  })
}

/** Fills a database with so many invented patients, through intake; or copies the one kept at `kept` from an earlier run. What is measured changes a copy. */
export async function fillFor(patients: number, kept: string | null, say: (line: string) => void): Promise<FilledFor> {
  const path = placeFor(`pages-${patients}.db`)
  const from = kept ?? path
  const signInsAt = `${from}.sign-ins.json`
  if (!existsSync(from) || !existsSync(signInsAt)) {
    say(`${patients} patients are invented and taken in, which takes minutes for many ...`)
    await fill(from, signInsAt, patients)
  }
  if (from !== path) copyDatabase(from, path)
  // What the first look at a new day would do, so that no round measures it.
  await withDatabase(path, (call) => showList(call, FIRST_PAGE))
  return { patients, path, url: `file:${path}`, signIns: JSON.parse(readFileSync(signInsAt, 'utf8')) as readonly SignIn[] }
}
