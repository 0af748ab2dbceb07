import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { consoleCall, demonstrationAccounts, fillDemonstration, showList } from '../../lib/usecases/index.ts'
import { placeFor, withDatabase } from '../databases.ts'
import { FIRST_PAGE } from '../reviewList.ts'

type SignIn = Extract<Awaited<ReturnType<typeof demonstrationAccounts>>, { ok: true }>['value'][number]

/** A database of invented patients and who may sign in to it. */
export interface FilledFor {
  readonly patients: number
  readonly path: string
  readonly signIns: readonly SignIn[]
}

/** Fills a database with so many invented patients, through intake; or takes the one kept at `kept` from an earlier run. */
export async function fillFor(patients: number, kept: string | null, say: (line: string) => void): Promise<FilledFor> {
  const path = kept ?? placeFor(`pages-${patients}.db`)
  const signInsAt = `${path}.sign-ins.json`
  const there = existsSync(path) && existsSync(signInsAt)
  if (!there) say(`${patients} patients are invented and taken in, which takes minutes for many ...`)
  const signIns = await withDatabase(path, async (call) => {
    if (there) return JSON.parse(readFileSync(signInsAt, 'utf8')) as readonly SignIn[]
    const filled = await fillDemonstration(consoleCall(call.store, 'bench'), { patients, years: patients > 1000 ? 1 : 8, seed: 20_261_125 })
    if (!filled.ok) throw new Error(filled.reason)
    const made = await demonstrationAccounts(call)
    if (!made.ok) throw new Error(made.reason)
    writeFileSync(signInsAt, JSON.stringify(made.value))
    return made.value
  })
  // What the first look at a new day would do, so that no round measures it.
  await withDatabase(path, (call) => showList(call, FIRST_PAGE))
  return { patients, path, signIns }
}
