import { asDecided, correctsRow, field, type MeantRow, type SourceKnowledge } from '../../intake/index.ts'
import { currentVersion, isCorrection } from '../../results/index.ts'
import type { Repeat, StoredMapping, StoredResult, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { fileRow } from '../intake/fileRow.ts'
import { keepMappings } from '../intake/keepMappings.ts'
import { readRow } from '../intake/readRow.ts'
import { type PlacedRow, rowsOfFiles } from './rowsOfFiles.ts'

/** What was taken back: rows in the queue again or filed otherwise, and stored versions that count no longer. */
export interface TakenBackCount {
  readonly versions: number
  /** Those of results, by number. */
  readonly results: ReadonlySet<number>
  readonly touched: ReadonlySet<string>
}

/** Lets the version that counts of an identity be the one that counts without those taken back; none where none is left. */
function recount(tx: Tx, kind: 'results' | 'course', identity: string, patientId: string): void {
  if (kind === 'results') {
    const left = tx.versionsOf(identity).filter(({ takenBack }) => !takenBack)
    const counts = currentVersion(left.map(({ result }) => result))
    if (counts !== null) tx.setCurrentResult(identity, counts.id)
    return
  }
  const left = tx.eventVersionsOf(patientId).filter((event) => event.identity === identity && !event.takenBack)
  const last = left.at(-1)
  if (last !== undefined) tx.setCurrentEvent(identity, last.id)
}

/** What a person decided of this row alone, while it waited. */
function decidedOf(tx: Tx, { raw, fileId, line }: Pick<PlacedRow, 'raw' | 'fileId' | 'line'>): AgainRow['decided'] {
  const fields = JSON.stringify(raw.fields)
  return tx.heldRowsAt(fileId, line).find((held) => JSON.stringify(held.fields) === fields)?.decided ?? null
}

/**
 * Corrections that could only be filed because a version stood there that is taken back now: they wait for an original again. One that a person filed as
 * the first version stays.
 */
function withoutOriginal(tx: Tx, identities: ReadonlySet<string>): StoredResult[] {
  return [...identities].flatMap((identity) => {
    const left = tx.versionsOf(identity).filter(({ takenBack }) => !takenBack)
    return left.every(({ result }) => result.version > 1 && isCorrection(result.status)) ? left : []
  })
}

/** The rows these versions came from. */
function rowsBehind(tx: Tx, versions: readonly StoredResult[]): AgainRow[] {
  const places = versions.map(({ patientId, result: { code, provenance } }) => ({ patientId, ...provenance, code }))
  return rowsOfFiles(tx, places).flatMap(({ code, valueText, unitText, ...row }) => {
    const decided = decidedOf(tx, row)
    const { raw } = asDecided(row.raw, tx.sourceKnowledge(tx.file(row.fileId)?.source ?? null), decided)
    return isOfRow(raw, { code, valueText, unitText }) ? [{ row, decided }] : []
  })
}

/** The row as it was read with the mapping; null where the mapping said nothing of this row. */
function asFiled(
  tx: Tx,
  { raw, fileId, line }: PlacedRow,
  mapping: StoredMapping,
): (MeantRow & { readonly decided: Readonly<Record<string, string>> | null }) | null {
  const known = tx.sourceKnowledge(mapping.source)
  const before: SourceKnowledge = { ...known, mappings: [mapping, ...known.mappings] }
  const decided = decidedOf(tx, { raw, fileId, line })
  const meant = asDecided(raw, before, decided)
  return meant.mappings.includes(mapping.id) ? { ...meant, decided } : null
}

const isOfRow = (raw: MeantRow['raw'], version: { code: string; valueText: string; unitText: string }): boolean =>
  raw.kind === 'course' ||
  (version.code === field(raw, 'code') &&
    version.valueText === (raw.received?.value ?? raw.fields.value ?? '') &&
    version.unitText === (raw.received?.unit ?? raw.fields.unit ?? ''))

/** What a row of patients said of a patient cannot be taken back: what came before it may have been replaced since. It stays. */
const isOfPatients = ({ raw }: PlacedRow): boolean => raw.kind === 'patients'

/**
 * Takes the rows of one patient back that a revoked mapping brought in: the versions they became count no longer, and the rows are read again by what is
 * known now. What cannot be read without the mapping waits in the queue for a person; what can is filed as it says itself.
 */
export function takeBack(tx: Tx, rows: readonly PlacedRow[], repeats: readonly RepeatedRow[], mapping: StoredMapping, call: Call): TakenBackCount {
  const touched = new Set<string>()
  const again: AgainRow[] = []
  const taken = new Set<string>()
  const results = new Set<number>()
  const identities = new Set<string>()
  for (const row of rows.filter((one) => !isOfPatients(one))) {
    const meant = asFiled(tx, row, mapping)
    const { kind } = row.raw
    if (meant === null || kind === 'patients') continue
    const versions = tx.versionsOfRow(kind, row).filter((one) => isOfRow(meant.raw, one))
    // Another mapping was revoked before: the row came back then, and waits already or was filed for somebody else.
    if (versions.length === 0) continue
    for (const version of versions) {
      tx.takeVersionBack({ kind, id: version.id, mappingId: mapping.id, by: call.actor.name, at: call.now })
      recount(tx, kind, version.identity, row.patientId)
      taken.add(`${kind} ${version.id}`)
      if (kind === 'results') results.add(version.id)
      if (kind === 'results') identities.add(version.identity)
    }
    touched.add(row.patientId)
    again.push({ row, decided: meant.decided })
  }
  const hanging = withoutOriginal(tx, identities)
  for (const { result } of hanging) {
    tx.takeVersionBack({ kind: 'results', id: result.id, mappingId: mapping.id, by: call.actor.name, at: call.now })
    taken.add(`results ${result.id}`)
    results.add(result.id)
  }
  again.push(...rowsBehind(tx, hanging))
  for (const row of repeats.filter(({ kind, versionId }) => taken.has(`${kind} ${versionId}`))) {
    // Where the mapping was needed to read it too, the row it repeated waits for both of them.
    if (tx.file(row.fileId)?.source !== mapping.source || asFiled(tx, row, mapping) === null) again.push({ row, decided: null })
  }
  for (const patientId of readAnew(tx, again, mapping, call)) touched.add(patientId)
  for (const place of new Map(rows.map((row) => [`${row.fileId}:${row.line}:${row.patientId}`, row])).values())
    tx.insertMappingReturn(mapping.id, place)
  return { versions: taken.size, results, touched }
}

/** A row that only repeated a version. */
export type RepeatedRow = PlacedRow & Pick<Repeat, 'kind' | 'versionId'>

interface AgainRow {
  readonly row: PlacedRow
  readonly decided: Readonly<Record<string, string>> | null
}

/** Reads the rows by what is known now, originals before their corrections, and answers whom they concern. */
function readAnew(tx: Tx, again: readonly AgainRow[], mapping: StoredMapping, call: Call): Set<string> {
  const concerned = new Set<string>()
  for (const { row, decided } of [...again.filter(({ row }) => !correctsRow(row.raw)), ...again.filter(({ row }) => correctsRow(row.raw))]) {
    const { raw, fileId, line } = row
    const meant = asDecided(raw, tx.sourceKnowledge(tx.file(fileId)?.source ?? null), decided)
    const patientId = field(meant.raw, 'patient_id')
    const read = readRow(meant.raw, patientId === '' ? null : (tx.patient(patientId)?.patient ?? null), call.today)
    const answer = fileRow(tx, read, patientId, { fileId, line, now: call.now })
    keepMappings(tx, meant, answer, { fileId, line })
    concerned.add(patientId)
    if (answer.outcome !== 'held' && answer.outcome !== 'refused') continue
    const waits = { fileId, line, kind: raw.kind, patientId: patientId === '' ? null : patientId, reason: answer.reason, sentence: answer.sentence }
    const collectedOn = answer.outcome === 'held' ? answer.on : null
    const came = { row: raw.text, fields: { ...raw.fields }, receivedAt: call.now, receivedOn: call.today, collectedOn, decided }
    tx.insertReturned({ ...waits, ...came }, mapping.id)
  }
  return concerned
}
