import { statSync } from 'node:fs'
import Database from 'better-sqlite3'
import { askedOf } from './serverDatabase.ts'

/** Bytes of everything, of the results with their indexes, and how many results there are. */
export interface BytesTaken {
  readonly all: number
  readonly ofResults: number
  readonly results: number
}

const ON_SERVER = `SELECT
  (SELECT sum(pg_total_relation_size(oid)) FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r') AS "all",
  (SELECT sum(pg_total_relation_size(relid)) FROM pg_partition_tree('result') WHERE isleaf) AS "ofResults",
  (SELECT count(*) FROM result) AS results`

function ofFile(path: string, packed: boolean): BytesTaken {
  const db = new Database(path)
  try {
    if (packed) db.exec('VACUUM')
    // What stands in the write-ahead log goes into the file.
    db.pragma('wal_checkpoint(TRUNCATE)')
    const one = (sql: string) => Number(db.prepare(sql).pluck().get())
    return {
      all: statSync(path).size,
      ofResults: one("SELECT sum(pgsize) FROM dbstat WHERE name IN (SELECT name FROM sqlite_master WHERE tbl_name = 'result')"),
      results: one('SELECT count(*) FROM result'),
    }
  } finally {
    db.close()
  }
}

/** What a database takes of the disk, by its address (`file:` and an absolute path, or a server's); `packed`: after what is free was given back. */
export async function bytesTaken(url: string, packed: boolean): Promise<BytesTaken> {
  if (url.startsWith('file:')) return ofFile(url.slice('file:'.length), packed)
  const [row] = await askedOf<Record<keyof BytesTaken, string>>(url, ...(packed ? ['VACUUM FULL'] : []), ON_SERVER)
  return { all: Number(row?.all), ofResults: Number(row?.ofResults), results: Number(row?.results) }
}
