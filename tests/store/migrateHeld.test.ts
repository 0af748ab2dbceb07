import { createHash } from 'node:crypto'
import { cpSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { openStore } from '../../lib/store/index.ts'
import { listDocument, recheck, verifyLog } from '../../lib/usecases/index.ts'
import { callOf, granted, NOW } from '../usecases/accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, valuesOf } from '../usecases/clinic.ts'
import { decideAs, takeFrom, waitingReasons } from '../usecases/held/queue.ts'
import { freshUrl } from './freshStore.ts'

const OLD = ['20261125100000_first', '20261125170000_decisions', '20261125180000_plan_versions']

test('a database of before sources, merges and pieces keeps its files and held rows, and a held row can be mapped', async () => {
  const url = freshUrl()
  const migrations = join(dirname(url.slice('file:'.length)), 'old')
  for (const name of OLD) cpSync(`prisma/migrations/${name}`, join(migrations, name), { recursive: true })
  await (await openStore(url, { migrations })).close()
  const row = resultRow({ code: 'MP' })
  const { bytes } = csv('old.csv', [row])
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const old = new Database(url.slice('file:'.length))
  old.prepare('INSERT INTO intake_file_bytes VALUES (?, ?)').run(sha256, Buffer.from(bytes))
  const file = `INSERT INTO intake_file (id, name, sha256, byte_count, kind, source, received_at, received_by, rows_in_file, rows_read, held)
    VALUES (1, 'old.csv', ?, ?, 'results', 'north', ?, 'x', 1, 1, 1)`
  old.prepare(file).run(sha256, bytes.length, NOW)
  old.exec("INSERT INTO patient (id, birth_date, sex, status, file_id, line) VALUES ('P1', '1950-03-12', 'female', 'followed', 1, 2)")
  const held = `INSERT INTO held_row (id, file_id, line, kind, patient_id, reason, sentence, row, fields, received_at, received_on)
    VALUES (4, 1, 2, 'results', 'P1', 'unknown-code', 'A code nobody knows.', 'as received', ?, ?, '2026-11-25')`
  old.prepare(held).run(JSON.stringify(row), NOW)
  old.exec(`INSERT INTO standing (patient_id, history_revision, followed, rules_version, plan_version, evaluated_on, window_rank, state_rank, organ_rank, excess,
    phase, window, answer) VALUES ('P1', 0, 1, 'r', 'p', '2026-11-25', 4, 3, 1, 0, 'unrecorded', 'on-schedule', '{}')`)
  old.close()

  const store = await openStore(url)
  expect(store.reader.fileBytes(1)?.equals(bytes)).toBe(true)
  expect(waitingReasons(store)).toEqual(['unknown-code'])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  expect(granted(await listDocument(callOf(store), null)).patients).toMatchObject([{ patientId: 'P1', findings: expect.any(Array) }])
  granted(await decideAs(store, 4, { kind: 'code', code: '33358-3' }, { remember: true }))
  await takeFrom(store, 'north', [csv('patients.csv', [patientRow()]), csv('course.csv', courseRows()), csv('old.csv', [row])])
  expect([valuesOf(store), waitingReasons(store)]).toEqual([['14.2'], []])
  expect(store.reader.recentFiles(1)[0]).toMatchObject({ rows: 1, known: 1 })
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  expect(granted(await verifyLog(callOf(store))).firstBad).toBeNull()
  await store.close()
})
