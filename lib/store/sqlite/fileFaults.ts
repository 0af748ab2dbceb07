import type Database from 'better-sqlite3'

const MOST_TOLD = 20

/** What SQLite itself finds wrong with the file: pages, indexes, constraints, rows that point to nothing. A bit that changed inside a text is none of it. */
export function fileFaults(db: Database.Database): string[] {
  const checked = db.pragma(`integrity_check(${MOST_TOLD})`) as readonly { readonly integrity_check: string }[]
  const broken = db.pragma('foreign_key_check') as readonly { readonly table: string; readonly parent: string }[]
  return [
    ...checked.map((row) => row.integrity_check).filter((says) => says !== 'ok'),
    ...broken.slice(0, MOST_TOLD).map(({ table, parent }) => `a row of ${table} points to no row of ${parent}`),
  ]
}
