import { correctsRow } from '../../intake/index.ts'
import type { HeldRow, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import type { Call } from '../call.ts'
import { afterFiling } from '../intake/afterFiling.ts'
import { attempt } from './attempt.ts'
import { partsInTurn } from './partsInTurn.ts'
import { readAgain } from './readAgain.ts'
import { sentenceFor } from './sentenceFor.ts'

/** What is done with each row: filed as it now reads, refused, or read again with what was just decided (of this row: `decided`). */
export type RowAct =
  | { readonly kind: 'file' }
  | { readonly kind: 'refuse' }
  | { readonly kind: 'read-again'; readonly decided: Readonly<Record<string, string>> | null }

/** What became of the rows. `patients` are those whose rows were filed or refused. */
export interface Settled {
  readonly done: number
  readonly patients: ReadonlySet<string>
  readonly stay: readonly { readonly heldId: number; readonly line: number; readonly sentence: string }[]
}

/** Originals before their corrections, so that their order in the queue decides nothing. */
const originalsFirst = (rows: readonly HeldRow[]): HeldRow[] => [...rows.filter((row) => !correctsRow(row)), ...rows.filter(correctsRow)]

function settleOne(tx: Tx, before: HeldRow, act: RowAct, call: Call) {
  if (act.kind === 'refuse') return { filed: true, patientId: before.patientId } as const
  if (act.kind === 'file') return attempt(tx, before, call)
  if (act.decided !== null) tx.setDecided(before.id, act.decided)
  return readAgain(tx, tx.heldRow(before.id) ?? before, call)
}

function settlePart(tx: Tx, rows: readonly HeldRow[], act: RowAct, reason: string, call: Call) {
  const events: TrailEvent[] = []
  const touched = new Set<string>()
  const [patients, stay] = [new Set<string>(), [] as Settled['stay'][number][]]
  let done = 0
  const lastBefore = tx.lastResultId()
  const decision = act.kind === 'refuse' ? 'refuse' : 'file'
  for (const { id, line } of rows) {
    const held = tx.heldRow(id)
    // Somebody else decided on it meanwhile, or its original was filed a moment ago.
    if (held === null || held.resolved !== null) continue
    const outcome = settleOne(tx, held, act, call)
    const now = tx.heldRow(id)
    for (const patientId of [held.patientId, now?.patientId ?? null, outcome.filed ? outcome.patientId : null]) {
      if (patientId !== null && tx.patient(patientId) !== null) touched.add(patientId)
    }
    if (!outcome.filed) {
      stay.push({ heldId: id, line, sentence: sentenceFor(call, outcome.sentence) })
      continue
    }
    tx.resolveHeld({ heldId: id, decision, reason, by: call.actor.name, at: call.now })
    const added = 'addedPatient' in outcome && outcome.addedPatient === true
    events.push({ action: 'held-resolved', heldId: id, patientId: outcome.patientId, decision, ...(added && { patientAdded: true }) })
    if (outcome.patientId !== null) patients.add(outcome.patientId)
    done += 1
  }
  for (const { id, patientId } of afterFiling(tx, touched, lastBefore, call))
    events.push({ action: 'held-resolved', heldId: id, patientId, decision: 'file' })
  if (stay.length > 0 || events.length === 0) events.push({ action: 'held-read-again', rows: rows.length, stay: stay.length })
  return { value: { done, patients, stay }, events }
}

/**
 * Does one and the same with many held rows, in parts that never hold the writer long, each with the standings it changed and its entries of the log.
 * Each row is read afresh; one that still cannot be read stays, and says why.
 */
export async function settleRows(call: Call, heldIds: readonly number[], act: RowAct, reason: string): Promise<Settled> {
  const rows = heldIds.flatMap((id) => call.store.reader.heldRow(id) ?? [])
  let settled: Settled = { done: 0, patients: new Set(), stay: [] }
  for await (const some of partsInTurn(originalsFirst(rows))) {
    const part = await call.store.record(call, (tx) => settlePart(tx, some, act, reason, call))
    const patients = new Set([...settled.patients, ...part.patients])
    settled = { done: settled.done + part.done, patients, stay: [...settled.stay, ...part.stay] }
  }
  return settled
}
