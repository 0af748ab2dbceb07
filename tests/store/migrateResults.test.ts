import { cpSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { openStore } from '../../lib/store/index.ts'
import { recheck } from '../../lib/usecases/index.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../usecases/clinic.ts'
import { freshUrl } from './freshStore.ts'

const MADE_ANEW = '20261129010000_result_checks'

function everything(url: string): unknown {
  const db = new Database(url.slice('file:'.length), { readonly: true })
  const rows = db.prepare('SELECT * FROM result ORDER BY id').raw().all()
  const names = db.prepare("SELECT type, name FROM sqlite_master WHERE tbl_name = 'result' ORDER BY type, name").raw().all()
  db.close()
  return { rows, names }
}

test('results of before their checks were written as comparisons stay as they were, with indexes and trigger, and what points to them', async () => {
  const url = freshUrl()
  const migrations = join(dirname(url.slice('file:'.length)), 'old')
  for (const name of readdirSync('prisma/migrations').filter((one) => /^\d/.test(one) && one < MADE_ANEW)) {
    cpSync(`prisma/migrations/${name}`, join(migrations, name), { recursive: true })
  }
  const old = await openStore(url, { migrations })
  const limited = resultRow({
    accession: 'A2',
    collected_at: '2026-06-08',
    value: '<0.5',
    reference_low: '0',
    reference_high: '1',
    laboratory: 'North',
  })
  const words = resultRow({ accession: 'A3', code: '25700-6', value: 'IgG kappa', unit: '' })
  const files = [csv('p.csv', [patientRow()]), csv('c.csv', courseRows()), csv('r.csv', [resultRow(), limited, words])]
  await take(old, files)
  await take(old, [csv('w.csv', [resultRow({ value: '15', status: 'corrected' })])])
  await old.close()
  const before = everything(url)

  const store = await openStore(url)
  expect(everything(url)).toEqual(before)
  expect((before as { rows: unknown[] }).rows).toHaveLength(4)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  const [again] = await take(store, [csv('r.csv', [resultRow(), limited, words])])
  expect(again).toMatchObject({ rows: 3, known: 3 })
  await store.close()
})
