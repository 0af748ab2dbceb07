import type { Reader } from '../../store/index.ts'
import { addDays, type Day } from '../../time/index.ts'
import { auditEventOf, type PatientsTold } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { patientsToldTo } from './patientsTold.ts'

/** Where an export begins or ends: an entry by its number, or a day (UTC), with whatever a clock that ran ahead or behind wrote in between. Both ends belong to it. */
export type LogBound = { readonly sequence: number } | { readonly day: Day }

export interface LogWish {
  /** Null: from the first entry that is there, to the last. */
  readonly from: LogBound | null
  readonly to: LogBound | null
}

/** Entries of the log as FHIR R4 AuditEvent, one JSON document a line (NDJSON). */
export interface LogExport {
  readonly fileName: string
  readonly first: number
  readonly last: number
  readonly patients: PatientsTold['as']
  /** The file in pieces of whole lines, read as they are asked for: however long the log is, little of it is in memory. `onRows` hears how far it is. */
  readonly chunks: (onRows?: OnRows) => Generator<string, void>
}

type OnRows = (done: number) => void

// An entry may name every patient of a list.
const ROWS_AT_ONCE = 100

function* linesInChunks(reader: Reader, first: number, last: number, told: PatientsTold, onRows?: OnRows): Generator<string, void> {
  const databaseId = reader.databaseId()
  let after = first - 1
  while (after < last) {
    const rows = reader.trailRows({ after, upTo: last, limit: ROWS_AT_ONCE })
    const end = rows.at(-1)?.sequence
    if (end === undefined || rows[0]?.sequence !== after + 1) throw new Error(`Entries from ${after + 1} on were retired meanwhile. Export again.`)
    yield rows.map((row) => `${JSON.stringify(auditEventOf(row, told, databaseId))}\n`).join('')
    after = end
    onRows?.(after - first + 1)
  }
}

/** The lines of entries `first` to `last`, told with patient numbers: what a file needs to be verified by itself. */
export function wholeLines(reader: Reader, first: number, last: number): Generator<string, void> {
  return linesInChunks(reader, first, last, { as: 'numbers' })
}

function boundsOf(reader: Reader, { from, to }: LogWish): { readonly first: number; readonly last: number } {
  const head = reader.trailHead().sequence
  const start = from === null ? 1 : 'day' in from ? (reader.firstTrailRowFrom(`${from.day}T00:00:00.000Z`) ?? head + 1) : from.sequence
  const end = to === null ? head : 'day' in to ? (reader.lastTrailRowBefore(`${addDays(to.day, 1)}T00:00:00.000Z`) ?? 0) : to.sequence
  return { first: Math.max(start, reader.firstTrailRow()), last: Math.min(head, end) }
}

/**
 * Entries of the log as FHIR R4 AuditEvent. With patient numbers the file can be verified by itself; a reader who is told no numbers gets neither
 * the hashes nor the events, and its file says so in every line. The export is an entry before its first line is read.
 */
export async function exportLog(call: Call, wish: LogWish): Promise<Outcome<LogExport>> {
  const refused = await refusedUnlessMay(call, 'log.export', 'log')
  if (refused !== null) return refused
  const { reader } = call.store
  const { first, last } = boundsOf(reader, wish)
  if (first > last) return { ok: false, kind: 'invalid', reason: 'The log has no entry there.' }
  const telling = patientsToldTo(call)
  if (!telling.ok) return telling
  const told = telling.value
  await call.store.record(call, () => ({ value: null, events: [{ action: 'log-exported', from: first, to: last, patients: told.as }] }))
  const fileName = `log-entries-${first}-to-${last}.ndjson`
  return { ok: true, value: { fileName, first, last, patients: told.as, chunks: (onRows) => linesInChunks(reader, first, last, told, onRows) } }
}
