import type { Reader } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { courseChangeSha256 } from '../courseChanges/courseChangeSha256.ts'
import { decisionSha256 } from '../decisions/decisionSha256.ts'

/** What is kept, held against the digests that came with it. */
export interface StoredCheck {
  readonly files: number
  /** Decisions and changes of courses. */
  readonly decisions: number
  /** Large files whose taking in was interrupted: no fault, and nothing of them is told by half. */
  readonly unfinished: readonly string[]
  /** What is damaged, a sentence each, by number only. */
  readonly faults: readonly string[]
}

function decisionFaults(reader: Reader): { readonly count: number; readonly faults: readonly string[] } {
  const { decisions: logged, fromTheFirst } = reader.loggedDecisions()
  const told = new Map(logged.map((decision) => [decision.decisionId, decision]))
  // What was decided in a record that is joined to another stays with it.
  const records = reader.patientIds().flatMap((patientId) => [patientId, ...reader.joinedIds(patientId)])
  const kept = records.flatMap((patientId) => reader.decisionsOf(patientId).map((decision) => ({ patientId, decision })))
  const faults = kept.flatMap(({ patientId, decision }) => {
    const entry = told.get(decision.id)
    told.delete(decision.id)
    if (entry === undefined) return fromTheFirst ? [`Decision ${decision.id} has no entry in the log.`] : []
    return entry.after === decisionSha256(patientId, decision) ? [] : [`Decision ${decision.id} is not what the log's digest says was decided.`]
  })
  return { count: kept.length, faults: [...faults, ...[...told.keys()].map((id) => `Decision ${id} is in the log and is not kept.`)] }
}

function changeFaults(reader: Reader, fromTheFirst: boolean): { readonly count: number; readonly faults: readonly string[] } {
  const told = new Map(reader.loggedChanges().map((change) => [change.changeId, change.after]))
  const records = reader.patientIds().flatMap((patientId) => [patientId, ...reader.joinedIds(patientId)])
  const kept = records.flatMap((patientId) => reader.courseChangesOf(patientId).map((change) => ({ patientId, change })))
  const faults = kept.flatMap(({ patientId, change }) => {
    const after = told.get(change.id)
    told.delete(change.id)
    if (after === undefined) return fromTheFirst ? [`Change ${change.id} of a course has no entry in the log.`] : []
    return after === courseChangeSha256(patientId, change) ? [] : [`Change ${change.id} of a course is not what the log's digest says was kept.`]
  })
  return { count: kept.length, faults: [...faults, ...[...told.keys()].map((id) => `Change ${id} of a course is in the log and is not kept.`)] }
}

/** What reading ends with where a page is damaged; every check goes on with the next. */
function orFault<T>(read: () => T, otherwise: T, faults: string[]): T {
  try {
    return read()
  } catch (error) {
    faults.push(`The database cannot be read to the end: ${error instanceof Error ? error.message : String(error)}.`)
    return otherwise
  }
}

/**
 * Reads the whole database: its structure (SQLite's own check), the bytes of every file against the SHA-256 they came in with, and every decision and
 * change of a course against the digest in the log. A bit that changed inside a value is seen by the digests, not by SQLite. The console only; nothing is written.
 */
export async function recheckStored(call: Call): Promise<Outcome<StoredCheck>> {
  if (call.actor.role !== 'console') return { ok: false, kind: 'not-allowed', reason: 'What is stored is checked from the command line.' }
  const { reader } = call.store
  const faults: string[] = []
  for (const says of orFault(() => reader.databaseFaults(), [], faults)) faults.push(`The database is damaged: ${says}.`)
  const unfinished: string[] = []
  const numbers = orFault(() => reader.fileNumbers(), [], faults)
  for (const id of numbers) {
    const state = orFault(() => reader.keptBytes(id), 'changed', faults)
    if (state === 'unfinished') unfinished.push(`File ${id} was not taken in to its end: send it again.`)
    if (state === 'changed') faults.push(`The bytes kept of file ${id} are not those that came in: their SHA-256 differs.`)
  }
  const decisions = orFault(() => decisionFaults(reader), { count: 0, faults: [] }, faults)
  const changes = orFault(() => changeFaults(reader, reader.loggedDecisions().fromTheFirst), { count: 0, faults: [] }, faults)
  const all = [...faults, ...decisions.faults, ...changes.faults]
  return { ok: true, value: { files: numbers.length, decisions: decisions.count + changes.count, unfinished, faults: all } }
}
