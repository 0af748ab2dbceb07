import { afterEach, beforeEach, expect, test } from 'vitest'
import { openStore, type Store } from '../../lib/store/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { withoutGuards } from '../store/guards.ts'
import { fromOutside } from '../store/outside.ts'
import { TEST_SERVER } from '../store/testServer.ts'
import { takeDamaged } from '../usecases/decisions/damaged.ts'
import { findingKey, workOnce } from './clinicWork.ts'
import { flipBytes } from './flipBytes.ts'
import { type Acknowledged, acknowledgedIn, lawHolds } from './law.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let acknowledged: Acknowledged
beforeEach(async () => {
  fresh = await freshStore()
  await takeDamaged(fresh.store)
  const lines: string[] = []
  const key = await findingKey(fresh.store)
  for (const n of [0, 1]) await workOnce(fresh.store, 'a', n, key, (line) => lines.push(line))
  acknowledged = acknowledgedIn(lines)
})
afterEach(() => fresh.dispose())

const OTHER_BYTES =
  TEST_SERVER === null
    ? "CAST(replace(CAST(bytes AS TEXT), '80', '81') AS BLOB)"
    : "convert_to(replace(convert_from(bytes, 'UTF8'), '80', '81'), 'UTF8')"

/** What a damaged disk or a hand in the database can do: without the triggers that refuse it. */
function plant(sql: string): void {
  const db = fromOutside(fresh.url)
  withoutGuards(db, () => db.exec(sql))
  db.close()
}

test('it holds where nothing happened', async () => {
  expect(acknowledged).toMatchObject({ files: [{ rows: 40 }, { rows: 40 }], reviews: [{ note: 'note a 0' }, { note: 'note a 1' }] })
  expect(acknowledged.head?.sequence).toBe(fresh.store.reader.trailHead().sequence)
  expect(await lawHolds(fresh.url, acknowledged)).toEqual([])
})

test.each([
  ['a file that is lost', 'DELETE FROM result WHERE file_id = 5; DELETE FROM intake_file WHERE id = 5', 'of 40 rows is lost'],
  ['a result that is lost', 'DELETE FROM result WHERE id = (SELECT max(id) FROM result)', 'counts 40 results and 39 are kept'],
  ['rows counted that were never taken', 'UPDATE intake_file SET rows_read = 41, filed = 41, rows_in_file = 41 WHERE id = 5', 'the log 40'],
  ['a review that is lost', "DELETE FROM decision WHERE text = 'note a 1'", 'the review "note a 1" is there 0 times'],
  ['a review that the log has alone', "DELETE FROM decision WHERE text = 'note a 1'", 'Decision 2 is in the log and is not kept.'],
  ['a review that changed', "UPDATE decision SET made_by = 'somebody' WHERE id = 1", "Decision 1 is not what the log's digest says was decided."],
  ['a review without its entry', "DELETE FROM trail WHERE object = 'decision 2'", 'Decision 2 has no entry in the log.'],
  ['a byte of a file', `UPDATE intake_file_bytes SET bytes = ${OTHER_BYTES}`, 'their SHA-256 differs'],
  ['a row of the log', "UPDATE trail SET actor = 'somebody' WHERE sequence = 6", 'the log does not fit from row 6 on'],
  ['the tail of the log', 'DELETE FROM trail WHERE sequence = (SELECT max(sequence) FROM trail)', 'of the log is not the one that was told'],
  [
    'a standing that differs',
    "UPDATE standing SET window_rank = CASE window_rank WHEN 0 THEN 1 ELSE 0 END WHERE patient_id = 'P1'",
    'P1 differs in windowRank',
  ],
  ['a value that changed', "UPDATE result SET kept_low = '70', kept_high = '70' WHERE patient_id = 'P1' AND kept_low = '100'", 'P1 differs in'],
  ['a row that points to nothing', "DELETE FROM patient WHERE id = 'P2'", 'points to no row of patient'],
])('%s breaks it', async (_, sql, says) => {
  plant(sql)
  expect((await lawHolds(fresh.url, acknowledged)).join('\n')).toContain(says)
})

test.runIf(TEST_SERVER === null)('a damaged page breaks it, too', async () => {
  const db = fromOutside(fresh.url)
  db.values('PRAGMA wal_checkpoint(TRUNCATE)')
  const page = db.value<number>("SELECT rootpage FROM sqlite_master WHERE name = 'result_patient'") ?? 0
  db.close()
  await fresh.store.close()
  flipBytes(fresh.url.slice('file:'.length), page)
  expect((await lawHolds(fresh.url, acknowledged)).join('\n')).toMatch(/The database (is damaged|cannot be read to the end)/)
  fresh.store = await openStore(fresh.url)
})
