import { readFileSync } from 'node:fs'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { freshStore } from './freshStore.ts'

interface Column {
  readonly type: string
  readonly required: boolean
  readonly key: number
}

const SQL_TYPE: Readonly<Record<string, string>> = { String: 'TEXT', Int: 'INTEGER', BigInt: 'INTEGER', Float: 'REAL', Bytes: 'BLOB' }

type Tables = Record<string, { columns: Record<string, Column>; indexes: string[] }>

/** The tables as schema.prisma declares them: columns by name, indexes by "name(columns)". */
function declaredTables(): Tables {
  const schema = readFileSync('prisma/schema.prisma', 'utf8')
  const tables: Tables = {}
  for (const [, body = ''] of schema.matchAll(/^model \w+ \{\n(.*?)^\}/gms)) {
    const name = /@@map\("(\w+)"\)/.exec(body)?.[1] ?? ''
    const columns: Record<string, Column> = {}
    const columnOf: Record<string, string> = {}
    const ids = /@@id\(\[(.+?)\]\)/.exec(body)?.[1]?.split(', ') ?? []
    for (const [, field = '', type = '', optional = '', rest = ''] of body.matchAll(/^ {2}(\w+)\s+(\w+)(\??)(?=\s)(.*)$/gm)) {
      const sql = SQL_TYPE[type]
      if (sql === undefined) continue
      const column = /@map\("(\w+)"\)/.exec(rest)?.[1] ?? field
      columnOf[field] = column
      columns[column] = { type: sql, required: optional === '', key: /@id\b/.test(rest) ? 1 : ids.indexOf(field) + 1 }
    }
    const indexes = [...body.matchAll(/@@index\(\[(.+?)\], map: "(\w+)"\)/g)].map(([, fields = '', index]) => {
      const named = fields.split(', ').map((field) => `${columnOf[field.split('(')[0] ?? '']}${field.includes('sort: Desc') ? ' desc' : ''}`)
      return `${index}(${named.join(', ')})`
    })
    tables[name] = { columns, indexes: indexes.toSorted() }
  }
  return tables
}

interface IndexRow {
  readonly name: string
  readonly origin: string
  readonly partial: number
}

/** The same, as SQLite tells it of a migrated file. */
function migratedTables(path: string): { tables: Tables; strict: boolean[] } {
  const db = new Database(path, { readonly: true })
  const names = db
    .prepare<[], { name: string; strict: number }>(
      "SELECT name, strict FROM pragma_table_list WHERE type = 'table' AND schema = 'main' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_%' ESCAPE '\\'",
    )
    .all()
  const tables: Tables = {}
  for (const { name } of names) {
    const columns = db.prepare<[string], { name: string; type: string; notnull: number; pk: number }>('SELECT * FROM pragma_table_info(?)').all(name)
    const indexes = db
      .prepare<[string], IndexRow>("SELECT name, origin, partial FROM pragma_index_list(?) WHERE origin = 'c' AND partial = 0")
      .all(name)
    tables[name] = {
      columns: Object.fromEntries(columns.map((column) => [column.name, { type: column.type, required: column.notnull === 1, key: column.pk }])),
      indexes: indexes
        .map((index) => {
          const parts = db
            .prepare<[string], { name: string; desc: number }>('SELECT name, "desc" FROM pragma_index_xinfo(?) WHERE key = 1 ORDER BY seqno')
            .all(index.name)
          return `${index.name}(${parts.map((part) => `${part.name}${part.desc === 1 ? ' desc' : ''}`).join(', ')})`
        })
        .toSorted(),
    }
  }
  db.close()
  return { tables, strict: names.map((table) => table.strict === 1) }
}

test('the schema and the migrations tell the same tables, and all of them are STRICT', async () => {
  const { url, dispose } = await freshStore()
  const { tables, strict } = migratedTables(url.slice('file:'.length))
  expect(Object.keys(tables).length).toBeGreaterThan(16)
  expect(tables).toEqual(declaredTables())
  expect(strict.every(Boolean)).toBe(true)
  await dispose()
})

test('the generated client reads every table', async () => {
  const { store, dispose } = await freshStore()
  const { prisma } = store
  if (prisma === null) throw new Error('a file of SQLite is read by the generated client')
  const counts = await Promise.all([
    prisma.intakeFileBytes.findMany(),
    prisma.intakeFileChunk.findMany(),
    prisma.intakeFile.findMany({ include: { results: true, heldRows: true } }),
    prisma.patient.findMany({ include: { standing: true } }),
    prisma.patientVersion.findMany(),
    prisma.patientAddress.findMany(),
    prisma.result.findMany(),
    prisma.courseEvent.findMany(),
    prisma.heldRow.findMany(),
    prisma.refusedRow.findMany(),
    prisma.hl7Message.findMany({ include: { file: true, content: true } }),
    prisma.standing.findMany({ include: { findings: true } }),
    prisma.decision.findMany({ include: { withdrawals: true } }),
    prisma.account.findMany({ include: { sessions: true, secondFactor: true, recoveryCodes: true } }),
    prisma.failedTry.findMany(),
    prisma.trail.findMany(),
    prisma.trailShown.findMany(),
    prisma.emergencyView.findMany({ include: { patient: true } }),
    prisma.patientSheet.findMany({ include: { patient: true } }),
    prisma.logReview.findMany(),
    prisma.planVersion.findMany(),
    prisma.patientMerge.findMany({ include: { from: true, into: true } }),
    prisma.setting.findMany(),
    prisma.logRange.findMany(),
  ])
  expect(counts.flat()).toEqual([])
  expect(await prisma.databaseIdentity.findMany()).toEqual([{ id: 1, code: expect.stringMatching(/^[0-9a-f]{32}$/) }])
  await dispose()
})

test('the generated client cannot write', async () => {
  const { store, dispose } = await freshStore()
  await expect(store.prisma?.setting.create({ data: { key: 'a', value: 'b' } })).rejects.toThrow(/readonly|read-only/i)
  expect(store.reader.setting('a')).toBe(null)
  await dispose()
})
