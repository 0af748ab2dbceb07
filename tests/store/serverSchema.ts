import type pg from 'pg'
import { byTable, type SchemaTold, sorted, tell } from './schemaTold.ts'

const TABLES = `SELECT relname AS name FROM pg_class JOIN pg_namespace ON pg_namespace.oid = relnamespace
  WHERE nspname = 'public' AND relkind IN ('r', 'p') AND NOT relispartition ORDER BY relname`

const COLUMNS = `SELECT relname AS table, concat_ws(' ', attname, format_type(atttypid, NULL), CASE WHEN attcollation <> 0 THEN collname END,
    CASE WHEN attnotnull THEN 'NOT NULL' END, CASE WHEN attgenerated <> '' THEN 'GENERATED' ELSE 'DEFAULT ' || pg_get_expr(adbin, adrelid) END) AS text
  FROM pg_class JOIN pg_attribute ON attrelid = pg_class.oid AND attnum > 0 AND NOT attisdropped
  LEFT JOIN pg_collation ON pg_collation.oid = attcollation LEFT JOIN pg_attrdef ON adrelid = attrelid AND adnum = attnum
  WHERE relname = ANY ($1) AND relnamespace = 'public'::regnamespace ORDER BY attnum`

const CONSTRAINTS = `SELECT relname AS table, contype AS kind, pg_get_constraintdef(pg_constraint.oid) AS text
  FROM pg_constraint JOIN pg_class ON pg_class.oid = conrelid WHERE relname = ANY ($1) AND contype IN ('c', 'p', 'u', 'f')`

const INDEXES = `SELECT relname AS table, pg_get_indexdef(indexrelid) AS text FROM pg_index JOIN pg_class ON pg_class.oid = indrelid
  WHERE relname = ANY ($1) AND NOT EXISTS (SELECT 1 FROM pg_constraint WHERE conindid = indexrelid AND contype IN ('p', 'u'))`

const TRIGGERS = `SELECT relname AS table, tgname AS name, pg_get_triggerdef(pg_trigger.oid) AS text, prosrc AS body
  FROM pg_trigger JOIN pg_class ON pg_class.oid = tgrelid JOIN pg_proc ON pg_proc.oid = tgfoid WHERE relname = ANY ($1) AND NOT tgisinternal`

interface Told {
  readonly table: string
  readonly text: string
}

/** An index without its table, and without the schema. */
export const unnamed = (text: string): string => text.replace(/ ON (?:ONLY )?(?:\w+\.)?\w+ USING btree/, '').replace(/^CREATE /, '')

function triggerText(name: string, text: string, body: string): string {
  const [, when = ''] = /TRIGGER \w+ (.*?) ON /.exec(text) ?? []
  const sentence = /refuse\('(.*)'\)$/.exec(text)?.[1] ?? /RAISE EXCEPTION '(.*?)'/.exec(body)?.[1]
  return `${name} ${when}${sentence === undefined ? '' : `: ${sentence}`}`
}

/** The schema of a migrated database as PostgreSQL tells it. */
export async function serverSchema(client: pg.Client): Promise<SchemaTold> {
  const tables = (await client.query<{ name: string }>(TABLES)).rows.map(({ name }) => name)
  const ask = async <Row extends Told>(sql: string): Promise<Row[]> => (await client.query<Row>(sql, [tables])).rows
  const listed = (rows: readonly Told[]): Record<string, string[]> => {
    const lists = byTable(tables)
    for (const { table, text } of rows) tell(lists, table, text)
    return lists
  }
  const constraints = await ask<Told & { kind: string }>(CONSTRAINTS)
  const ofKind = (kinds: string): Record<string, string[]> => sorted(listed(constraints.filter(({ kind }) => kinds.includes(kind))))
  const indexes = (await ask<Told>(INDEXES)).map(({ table, text }) => ({ table, text: unnamed(text) }))
  const triggers = await ask<Told & { name: string; body: string }>(TRIGGERS)
  return {
    columns: listed(await ask(COLUMNS)),
    checks: ofKind('c'),
    keys: ofKind('pu'),
    references: ofKind('f'),
    indexes: sorted(listed(indexes)),
    triggers: sorted(listed(triggers.map(({ table, name, text, body }) => ({ table, text: triggerText(name, text, body) })))),
  }
}
