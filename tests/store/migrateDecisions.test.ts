import { cpSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openStore, type Store } from '../../lib/store/index.ts'
import { recheck, recheckStored, recordReview, takeAnswersBack, verifyLog } from '../../lib/usecases/index.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { as, seenFinding, takeDamaged } from '../usecases/decisions/damaged.ts'
import { freshUrl } from './freshStore.ts'

const ANSWER_KINDS = '20261128010000_answer_kinds'
const RULE = 'relapse-haemoglobin'
const COLUMNS =
  'id, patient_id, kind, made_at, made_on, made_by, text, rule, finding_key, bring_back_on, shown_on, shown_values, attribution_id, result_id'

let url: string
let store: Store
let old: unknown[]
let logged: unknown[]

const outside = <T>(run: (db: Database.Database) => T): T => {
  const db = new Database(url.slice('file:'.length))
  try {
    return run(db)
  } finally {
    db.close()
  }
}
const rows = () => outside((db) => db.prepare(`SELECT ${COLUMNS} FROM decision ORDER BY id`).all())
const digests = () => outside((db) => db.prepare("SELECT object, after_hash FROM trail WHERE object LIKE 'decision %' ORDER BY sequence").all())

/** Decisions as the version of before wrote them: made by today's use cases, then put into a table of before. */
beforeEach(async () => {
  url = freshUrl()
  const migrations = join(dirname(url.slice('file:'.length)), 'old')
  for (const name of readdirSync('prisma/migrations').filter((one) => one < ANSWER_KINDS)) {
    cpSync(join('prisma/migrations', name), join(migrations, name), { recursive: true })
  }
  const newUrl = freshUrl()
  const made = await openStore(newUrl)
  await takeDamaged(made)
  const { key } = await seenFinding(made, RULE)
  granted(await recordReview(as(made, 'navigator'), { patientId: 'P1', rule: RULE, key, note: 'Über — “so”', bringBackOn: null }))
  granted(await recordReview(as(made, 'physician'), { patientId: 'P1', rule: RULE, key, note: 'Seen again.', bringBackOn: null }))
  await made.close()

  await (await openStore(url, { migrations })).close()
  old = outside((db) => {
    db.pragma('foreign_keys = OFF')
    db.exec(`ATTACH '${newUrl.slice('file:'.length)}' AS made`)
    const tables = db
      .prepare<[], { name: string }>("SELECT name FROM main.sqlite_master WHERE type = 'table' AND name NOT LIKE '\\_prisma%' ESCAPE '\\'")
      .all()
    const triggers = db.prepare<[], { name: string; sql: string }>("SELECT name, sql FROM main.sqlite_master WHERE type = 'trigger'").all()
    for (const { name } of triggers) db.exec(`DROP TRIGGER main.${name}`)
    for (const { name } of tables) {
      if (name.startsWith('sqlite_')) continue
      const columns = db
        .prepare<[string], { name: string }>("SELECT name FROM pragma_table_info(?, 'main')")
        .all(name)
        .map((column) => `"${column.name}"`)
        .join(', ')
      db.exec(`DELETE FROM main.${name}; INSERT INTO main.${name} (${columns}) SELECT ${columns} FROM made.${name}`)
    }
    for (const { sql } of triggers) db.exec(sql)
    return db.prepare(`SELECT ${COLUMNS} FROM main.decision ORDER BY id`).all()
  })
  logged = digests()
  store = await openStore(url)
})
afterEach(() => store.close())

test('decisions of before are kept as they were, with the digests the log has; nothing differs and the log fits', async () => {
  expect(old).toHaveLength(2)
  expect(rows()).toEqual(old)
  expect(digests()).toEqual(logged)
  expect(outside((db) => db.prepare('SELECT did, handover_id, answer_id FROM decision').all())).toEqual(
    old.map(() => ({ did: null, handover_id: null, answer_id: null })),
  )
  expect(granted(await recheckStored(callOf(store))).faults).toEqual([])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  expect(granted(await verifyLog(callOf(store))).firstBad).toBe(null)
})

test('a review of before still answers, has no kind, can be replaced by one with a kind and taken back', async () => {
  const finding = await seenFinding(store, RULE)
  expect(finding.answered).toMatchObject({ by: 'a physician', did: null, note: 'Seen again.' })
  expect(store.reader.decisionsOf('P1').every((decision) => !('did' in decision))).toBe(true)
  granted(await takeAnswersBack(as(store, 'navigator'), { patientId: 'P1', decisionIds: [finding.takeBack ?? 0] }))
  expect((await seenFinding(store, RULE)).answered).toMatchObject({ by: 'a navigator', did: null, note: 'Über — “so”' })
  const { rule, key } = finding
  granted(await recordReview(as(store, 'navigator'), { patientId: 'P1', rule, key, did: 'repeat-ordered', note: '', bringBackOn: null }))
  expect((await seenFinding(store, RULE)).answered?.did).toBe('repeat-ordered')
  expect(granted(await recheckStored(callOf(store))).faults).toEqual([])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test('the table made anew refuses what the one before refused', () => {
  for (const sql of [
    "UPDATE decision SET text = 'other'",
    'DELETE FROM decision',
    'INSERT OR REPLACE INTO decision SELECT * FROM decision WHERE id = 1',
  ])
    expect(() => outside((db) => db.exec(sql))).toThrow(/a decision is never/)
})
