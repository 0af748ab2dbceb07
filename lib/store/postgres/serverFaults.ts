import type { Connection } from '../connection.ts'

const MOST_TOLD = 20

const NOT_VALID = `SELECT conrelid::regclass::text AS place, conname AS name FROM pg_constraint
  WHERE connamespace = 'public'::regnamespace AND NOT convalidated ORDER BY 1, 2`
const BROKEN_INDEXES = `SELECT indexrelid::regclass::text AS name FROM pg_index JOIN pg_class ON pg_class.oid = indexrelid
  WHERE relnamespace = 'public'::regnamespace AND NOT indisvalid ORDER BY 1`
const DISABLED = `SELECT tgrelid::regclass::text AS place, tgname AS name FROM pg_trigger JOIN pg_class ON pg_class.oid = tgrelid
  WHERE relnamespace = 'public'::regnamespace AND tgenabled <> 'O' ORDER BY 1, 2`
const BAD_PAGES = 'SELECT coalesce(sum(checksum_failures), 0) AS pages FROM pg_stat_database WHERE datname = current_database()'

interface Reference {
  readonly child: string
  readonly parent: string
  readonly mine: readonly string[]
  readonly theirs: readonly string[]
}

const REFERENCES = `SELECT conrelid::regclass::text AS child, confrelid::regclass::text AS parent,
  (SELECT json_agg(attname ORDER BY place)::text FROM unnest(conkey) WITH ORDINALITY AS k (number, place)
    JOIN pg_attribute ON attrelid = conrelid AND attnum = number) AS mine,
  (SELECT json_agg(attname ORDER BY place)::text FROM unnest(confkey) WITH ORDINALITY AS k (number, place)
    JOIN pg_attribute ON attrelid = confrelid AND attnum = number) AS theirs
  FROM pg_constraint WHERE contype = 'f' AND conparentid = 0 AND connamespace = 'public'::regnamespace
    -- A site's role does not see all a row of its own may point to.
    AND NOT row_security_active(confrelid)
  ORDER BY 1, 2`

// What points to a result by its number alone is held by a guard, not by a key of the table.
const TO_RESULTS = ['decision', 'mapped_repeat', 'version_taken_back'] as const
const SEES_ALL = "SELECT row_security_active('result'::regclass) AS hidden"

function pointToNothing(statement: Connection['statement'], { child, parent, mine, theirs }: Reference): string[] {
  const isSet = mine.map((column) => `child.${column} IS NOT NULL`).join(' AND ')
  const equal = mine.map((column, at) => `parent.${theirs[at]} = child.${column}`).join(' AND ')
  const sql = `SELECT count(*) AS rows FROM ${child} AS child WHERE ${isSet} AND NOT EXISTS (SELECT 1 FROM ${parent} AS parent WHERE ${equal})`
  const rows = statement<{ rows: number }>(sql).get()?.rows ?? 0
  return rows === 0 ? [] : [`${rows === 1 ? 'a row' : `${rows} rows`} of ${child} points to no row of ${parent}`]
}

/**
 * What the server finds wrong: pages whose checksum failed, indexes and constraints that are not in force, guards that were switched off, rows that point to
 * nothing. It sees structure: a bit that changed inside a text of a page without checksums is none of it.
 */
export function serverFaults(statement: Connection['statement']): string[] {
  const pages = statement<{ pages: number }>(BAD_PAGES).get()?.pages ?? 0
  const found = [
    ...(pages > 0 ? [`${pages} pages did not have the checksum they were written with`] : []),
    ...statement<{ name: string }>(BROKEN_INDEXES)
      .all()
      .map(({ name }) => `the index ${name} is not valid`),
    ...statement<{ place: string; name: string }>(NOT_VALID)
      .all()
      .map(({ place, name }) => `the constraint ${name} of ${place} was never checked`),
    ...statement<{ place: string; name: string }>(DISABLED)
      .all()
      .map(({ place, name }) => `the guard ${name} of ${place} is switched off`),
    ...statement<{ child: string; parent: string; mine: string; theirs: string }>(REFERENCES)
      .all()
      .flatMap(({ mine, theirs, ...of }) => pointToNothing(statement, { ...of, mine: JSON.parse(mine), theirs: JSON.parse(theirs) })),
    ...TO_RESULTS.filter(() => statement<{ hidden: number }>(SEES_ALL).get()?.hidden === 0).flatMap((child) =>
      pointToNothing(statement, { child, parent: 'result', mine: ['result_id'], theirs: ['id'] }),
    ),
  ]
  return found.slice(0, MOST_TOLD)
}
