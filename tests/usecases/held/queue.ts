import type { Store } from '../../../lib/store/index.ts'
import { acceptFiles, type Call, decideHeld, type HeldAct, type HeldWish, type IncomingFile } from '../../../lib/usecases/index.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { listText } from '../clinic.ts'

/** A call of a person by name. */
export function callBy(store: Store, name: string, role: 'navigator' | 'physician' | 'administrator' | 'console' = 'navigator'): Call {
  const call = callOf(store, role)
  return { ...call, actor: { ...call.actor, name } }
}

/** Takes files in as sent by a source; null: nobody said by whom. */
export async function takeFrom(store: Store, source: string | null, files: readonly IncomingFile[]) {
  return granted(await acceptFiles(callOf(store), files, { source, dryRun: false }))
}

/** Decides on a row as a navigator, for it alone and remembering nothing, but for what a test wants otherwise. */
export function decideAs(store: Store, heldId: number, act: HeldAct, wish: Partial<HeldWish> = {}) {
  const all = { heldId, act, alike: false, except: [], remember: false, reason: 'asked the laboratory', ...wish }
  return decideHeld(callOf(store, 'navigator'), all)
}

/** The numbers of the rows that wait, in order of number. */
export function waitingIds(store: Store): number[] {
  return store.reader
    .heldQueue()
    .map(({ id }) => id)
    .toSorted((a, b) => a - b)
}

/** Why each row that waits does. */
export function waitingReasons(store: Store): string[] {
  return store.reader.heldQueue().map(({ reason }) => reason)
}

/** What a nurse sees of everybody, and what counts of each patient, whatever way it came about. */
export async function whatCounts(store: Store): Promise<object> {
  const results = store.reader.patientIds().map((patientId) => {
    const history = store.reader.loadHistory(patientId)?.history
    const counted = history?.results.map(({ code, collected, value, status }) => [code, collected.text, status, JSON.stringify(value)].join(' '))
    return [patientId, counted?.toSorted(), history?.held.length]
  })
  return { list: await listText(store), results }
}
