import { createHash } from 'node:crypto'
import type { Store } from '../../lib/store/index.ts'
import { acceptFiles, recordReview } from '../../lib/usecases/index.ts'
import { callOf, granted, NOW } from '../usecases/accounts/persons.ts'
import { csv, resultRow } from '../usecases/clinic.ts'
import { seenFinding } from '../usecases/decisions/damaged.ts'

const RULE = 'relapse-haemoglobin'
const ROWS = 40

/** File `n` of a writer: results of P2, of ever new samples. */
export function fileOf(writer: string, n: number, rows = ROWS) {
  const day = (row: number) => new Date(Date.UTC(2020, 0, 1 + ((n * rows + row) % 2000))).toISOString().slice(0, 10)
  const all = Array.from({ length: rows }, (_, row) =>
    resultRow({
      patient_id: 'P2',
      code: '14682-9',
      unit: 'umol/L',
      value: String(80 + (row % 30)),
      collected_at: day(row),
      accession: `${writer}${n}-${row}`,
    }),
  )
  return csv(`${writer}${n}.csv`, all)
}

/** The key of P1's finding, which the work below answers again and again (`takeDamaged`). */
export async function findingKey(store: Store, now = NOW): Promise<string> {
  return (await seenFinding(store, RULE, callOf(store, 'physician', now))).key
}

/** Takes file `n` in, answers P1's finding with a note, and says each only once it was told that it is done. */
export async function workOnce(store: Store, writer: string, n: number, key: string, say: (line: string) => void, now = NOW): Promise<void> {
  const file = fileOf(writer, n)
  const [report] = granted(await acceptFiles(callOf(store, 'console', now), [file], { source: 'tests', dryRun: false }))
  say(`file ${createHash('sha256').update(file.bytes).digest('hex')} ${report?.rows}`)
  const note = `note ${writer} ${n}`
  granted(await recordReview(callOf(store, 'physician', now), { patientId: 'P1', rule: RULE, key, note, bringBackOn: null }))
  say(`review P1 ${note}`)
  const { sequence, hash } = store.reader.trailHead()
  say(`head ${sequence} ${hash}`)
}
