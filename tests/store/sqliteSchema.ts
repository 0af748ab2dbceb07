import Database from 'better-sqlite3'
import type pg from 'pg'
import { readMigrations } from '../../lib/store/migrate/migrations.ts'
import { byTable, type SchemaTold, sorted, tell } from './schemaTold.ts'
import { unnamed } from './serverSchema.ts'

const TYPE: Readonly<Record<string, string>> = { TEXT: 'text C', INTEGER: 'bigint', REAL: 'double precision', BLOB: 'bytea' }

interface Named {
  readonly table: string
  readonly name: string
  readonly sql: string
}

interface Column {
  readonly name: string
  readonly type: string
  readonly notnull: number
  readonly dflt_value: string | null
  readonly hidden: number
}

/** The expressions behind CHECK in the text of a table, comments left out. */
function checksIn(sql: string): string[] {
  const text = sql.replaceAll(/--.*$/gm, '')
  return [...text.matchAll(/\bCHECK \(/g)].map(({ index, 0: word }) => {
    const from = index + word.length
    let depth = 1
    let at = from
    for (let quoted = false; depth > 0; at++) {
      const sign = text[at] ?? ''
      if (sign === "'") quoted = !quoted
      else if (!quoted) depth += sign === '(' ? 1 : sign === ')' ? -1 : 0
    }
    return text.slice(from, at - 1)
  })
}

const DAY = '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'

/** An expression of SQLite in the words of PostgreSQL. */
const translated = (sql: string): string =>
  sql
    .replaceAll(`GLOB '${DAY}'`, () => "~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'")
    .replaceAll("GLOB '[0-9][0-9][0-9][0-9]*'", "~ '^[0-9]{4}'")
    .replaceAll(/NOT GLOB '\*(\[[^\]]+\])\*'/g, "!~ '$1'")
    .replaceAll(/GLOB '([^']*)'/g, (_, pattern: string) => `LIKE '${pattern.replaceAll('?', '_').replaceAll('*', '%')}'`)
    .replaceAll(/\bwindow\b/g, '"window"')
    .replaceAll(/json_array_length\((\w+)\)/g, 'json_array_length($1::json)')
    .replaceAll(/json_type\((\w+)\)/g, 'json_typeof($1::json)')
    .replaceAll(/\bIS NOT '/g, "IS DISTINCT FROM '")
    .replaceAll(/\bIS '/g, "IS NOT DISTINCT FROM '")
    .replaceAll('min(from_id', 'least(from_id')
    .replaceAll('max(from_id', 'greatest(from_id')

function columnText({ name, type, notnull, dflt_value: given, hidden }: Column, sql: string): string {
  const isNumbered = new RegExp(`\\b${name} INTEGER NOT NULL PRIMARY KEY(?! REFERENCES)`).test(sql)
  const kind = new RegExp(`\\b${name} TEXT[A-Z ]* COLLATE NOCASE`).test(sql) ? 'text nocase' : TYPE[type.replace(' GENERATED ALWAYS', '')]
  const value = given === null ? [] : [`DEFAULT ${given.startsWith("'") ? `${given}::text` : given}`]
  return [name, kind, ...(notnull === 1 ? ['NOT NULL'] : []), ...(hidden > 0 ? ['GENERATED'] : []), ...(isNumbered ? ['NUMBERED'] : value)].join(' ')
}

/** An index as PostgreSQL has it: what can be null stands before everything else, as SQLite sorts it. */
function indexSql({ sql }: Named, columns: readonly Column[]): string {
  const [, head = '', inside = '', where = ''] = /^(.*?ON \w+ )\((.*?)\)( WHERE .*)?$/s.exec(sql) ?? []
  if (/[()]/.test(inside)) return translated(sql)
  const parts = inside.split(',').map((part) => {
    const [name = '', way = ''] = part.trim().split(' ')
    const isSure = columns.some((column) => column.name === name && column.notnull === 1) || where.includes(`${name} IS NOT NULL`)
    return `${name} ${way}${isSure ? '' : ` NULLS ${way === 'DESC' ? 'LAST' : 'FIRST'}`}`
  })
  return `${head}(${parts.join(', ')})${translated(where)}`
}

function triggerText({ name, sql }: Named): string {
  const [, when = '', event = '', columns = ''] = /TRIGGER \w+\s+(BEFORE|AFTER) (INSERT|DELETE|UPDATE)( OF [\w, ]+?)? ON /.exec(sql) ?? []
  const sentence = /RAISE\(ABORT, '(.*?)'\)/.exec(sql)?.[1]
  const of = columns.replaceAll('window', '"window"')
  return `${name} ${when} ${event}${of}${sentence === undefined ? '' : `: ${sentence}`}`
}

interface Reference {
  readonly id: number
  readonly from: string
  readonly table: string
  readonly to: string
  readonly on_delete: string
}

function referenceTexts(rows: readonly Reference[]): string[] {
  return [...new Set(rows.map(({ id }) => id))].map((one) => {
    const parts = rows.filter(({ id }) => id === one)
    const [from, to] = [parts.map((part) => part.from), parts.map((part) => part.to)].map((names) => names.join(', '))
    return `FOREIGN KEY (${from}) REFERENCES ${parts[0]?.table}(${to})${parts[0]?.on_delete === 'CASCADE' ? ' ON DELETE CASCADE' : ''}`
  })
}

/**
 * The schema of SQLite in the words of PostgreSQL. Checks and indexes are made on empty copies of the server's own tables, so that PostgreSQL itself says
 * what they mean; all of that is rolled back.
 */
export async function sqliteSchema(client: pg.Client): Promise<SchemaTold> {
  const db = new Database(':memory:')
  for (const { sql } of readMigrations('prisma/migrations')) db.exec(sql)
  const ask = <Row>(sql: string, ...cells: string[]): Row[] => db.prepare<string[], Row>(sql).all(...cells)
  const named = (type: string): Named[] =>
    ask<Named>("SELECT tbl_name AS 'table', name, sql FROM sqlite_master WHERE type = ? AND sql IS NOT NULL ORDER BY name", type)
  const tables = named('table')
  const names = tables.map(({ name }) => name)
  const told = { columns: byTable(names), keys: byTable(names), references: byTable(names), triggers: byTable(names) }
  const [checks, indexes] = [byTable(names), byTable(names)]
  for (const trigger of named('trigger')) tell(told.triggers, trigger.table, triggerText(trigger))
  for (const { name, sql } of tables) {
    const columns = ask<Column>('SELECT * FROM pragma_table_xinfo(?)', name)
    for (const column of columns) tell(told.columns, name, columnText(column, sql))
    for (const text of referenceTexts(ask('SELECT * FROM pragma_foreign_key_list(?) ORDER BY id, seq', name))) tell(told.references, name, text)
    const ownKey = ask<{ name: string }>('SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk', name).map((column) => column.name)
    tell(told.keys, name, `PRIMARY KEY (${ownKey.join(', ')})`)
    for (const { name: index } of ask<Named>("SELECT name FROM pragma_index_list(?) WHERE origin = 'u'", name)) {
      const parts = ask<{ name: string }>('SELECT name FROM pragma_index_info(?) ORDER BY seqno', index).map((column) => column.name)
      tell(told.keys, name, `UNIQUE (${parts.join(', ')})`)
    }
    await client.query('BEGIN')
    await client.query(`CREATE TEMPORARY TABLE copied (LIKE ${name})`)
    for (const check of checksIn(sql)) await client.query(`ALTER TABLE copied ADD CHECK (${translated(check)})`)
    for (const index of named('index').filter(({ table }) => table === name)) {
      await client.query(indexSql(index, columns).replace(` ON ${name} `, ' ON copied '))
    }
    const made = await client.query<{ text: string }>(
      `SELECT pg_get_constraintdef(oid) AS text FROM pg_constraint WHERE conrelid = 'copied'::regclass AND contype = 'c'`,
    )
    for (const { text } of made.rows) tell(checks, name, text)
    const indexed = await client.query<{ text: string }>(
      "SELECT pg_get_indexdef(indexrelid) AS text FROM pg_index WHERE indrelid = 'copied'::regclass",
    )
    for (const { text } of indexed.rows) tell(indexes, name, unnamed(text))
    await client.query('ROLLBACK')
  }
  db.close()
  const { columns, keys, references, triggers } = told
  return { columns, keys: sorted(keys), references: sorted(references), triggers: sorted(triggers), checks: sorted(checks), indexes: sorted(indexes) }
}
