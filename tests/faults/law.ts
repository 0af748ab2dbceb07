import { openStore, type Reader } from '../../lib/store/index.ts'
import type { TrailHead } from '../../lib/trail/index.ts'
import { type Call, recheck, recheckStored } from '../../lib/usecases/index.ts'
import { fromOutside, type Outside } from '../store/outside.ts'
import { callOf, granted, NOW } from '../usecases/accounts/persons.ts'

/** What somebody was told is done. */
export interface Acknowledged {
  /** Files that were answered with a report. */
  readonly files: readonly { readonly sha256: string; readonly rows: number }[]
  /** Reviews by their note, which each test gives once. */
  readonly reviews: readonly { readonly patientId: string; readonly note: string }[]
  /** The last head of the log that was told. */
  readonly head?: TrailHead
}

export const NOTHING: Acknowledged = { files: [], reviews: [] }

/** What a working program said it had done: `file SHA256 ROWS`, `review PATIENT NOTE`, `head NUMBER HASH`, a line each. */
export function acknowledgedIn(lines: readonly string[]): Acknowledged {
  const words = lines.map((line) => line.split(' '))
  const files = words.flatMap(([what, sha256 = '', rows]) => (what === 'file' ? [{ sha256, rows: Number(rows) }] : []))
  const reviews = words.flatMap(([what, patientId = '', ...note]) => (what === 'review' ? [{ patientId, note: note.join(' ') }] : []))
  const head = words.flatMap(([what, sequence, hash = '']) => (what === 'head' ? [{ sequence: Number(sequence), hash }] : [])).at(-1)
  return { files, reviews, ...(head === undefined ? {} : { head }) }
}

/** Nothing acknowledged is lost. */
function lost(db: Outside, reader: Reader, { files, reviews, head }: Acknowledged): string[] {
  const stored = 'SELECT max(rows_read) AS most, max(rows_in_file) AS whole FROM intake_file WHERE sha256 = ?'
  const hashAt = (sequence: number) => db.value<string>('SELECT hash FROM trail WHERE sequence = ?', sequence)
  const notes = (patientId: string) => reader.decisionsOf(patientId).map(({ text }) => text)
  return [
    ...files.flatMap(({ sha256, rows }) => {
      const { most, whole } = db.get<{ most: number | null; whole: number | null }>(stored, sha256) ?? { most: null, whole: null }
      return most === rows && whole === rows ? [] : [`file ${sha256.slice(0, 8)} of ${rows} rows is lost`]
    }),
    ...reviews.flatMap(({ patientId, note }) => {
      const times = notes(patientId).filter((text) => text === note).length
      return times === 1 ? [] : [`the review "${note}" is there ${times} times`]
    }),
    ...(head === undefined || head.sequence === 0 || hashAt(head.sequence) === head.hash
      ? []
      : [`row ${head.sequence} of the log is not the one that was told`]),
  ]
}

const OF_FILE = `SELECT intake_file.id, rows_read, filed, corrected, held, refused, released, kind,
  (SELECT count(*) FROM result WHERE file_id = intake_file.id) AS results,
  (SELECT count(*) FROM refused_row WHERE file_id = intake_file.id) AS refused_rows,
  (SELECT count(*) FROM held_row WHERE file_id = intake_file.id AND returned_by IS NULL) AS held_rows,
  (SELECT coalesce(sum(CAST(json_extract(event, '$.rows') AS INTEGER)), 0) FROM trail
    WHERE action = 'intake' AND CAST(json_extract(event, '$.fileId') AS INTEGER) = intake_file.id) AS logged FROM intake_file`

/** Nothing half-written is visible: of each file exactly the rows that are counted are kept, and the log counts the same. */
function halfWritten(db: Outside): string[] {
  const files = db.all<
    Record<'id' | 'rows_read' | 'filed' | 'corrected' | 'held' | 'refused' | 'results' | 'refused_rows' | 'held_rows' | 'logged', number> & {
      kind: string | null
    }
  >(OF_FILE)
  return files.flatMap((file) => [
    ...(file.kind === 'results' && file.results !== file.filed + file.corrected
      ? [`file ${file.id} counts ${file.filed + file.corrected} results and ${file.results} are kept`]
      : []),
    ...(file.held_rows === file.held && file.refused_rows === file.refused
      ? []
      : [`file ${file.id} counts other held or refused rows than are kept`]),
    ...(file.logged === file.rows_read ? [] : [`file ${file.id} counts ${file.rows_read} rows and the log ${file.logged}`]),
  ])
}

/** Everything derived is what it would be afresh; where a damaged page lets nothing be evaluated, that is said in its place. */
async function differences(call: Call): Promise<string[]> {
  try {
    return granted(await recheck(call)).differences.map(({ patientId, says }) => `${patientId} ${says}`)
  } catch (error) {
    return [`nobody can be evaluated afresh: ${String(error)}`]
  }
}

/**
 * The law after every fault, as the sentences of what is broken; none where it holds. Nothing acknowledged is lost, nothing half-written is visible, the
 * structure, the log and everything derived are sound. Opens the database as any program would. `now` is when the programs under test believed it was.
 */
export async function lawHolds(databaseUrl: string, acknowledged: Acknowledged, now = NOW): Promise<string[]> {
  const store = await openStore(databaseUrl)
  const db = fromOutside(databaseUrl, { reading: true })
  try {
    const call = callOf(store, 'console', now)
    const { firstBad } = store.reader.verifyTrail()
    return [
      ...lost(db, store.reader, acknowledged),
      ...halfWritten(db),
      ...(firstBad === null ? [] : [`the log does not fit from row ${firstBad} on`]),
      ...granted(await recheckStored(call)).faults,
      ...(await differences(call)),
    ]
  } finally {
    db.close()
    await store.close()
  }
}
