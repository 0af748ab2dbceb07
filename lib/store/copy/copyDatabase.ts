import Database from 'better-sqlite3'

/** Copies a database as it is at one moment, write-ahead log included, into an empty file. Nobody who writes meanwhile waits. Throws SQLite's error. */
export function copyDatabase(from: string, to: string): void {
  const db = new Database(from, { readonly: true, fileMustExist: true, timeout: 5_000 })
  try {
    // One statement, one read transaction: a copy in steps begins again with every commit of another program and may never end.
    db.prepare('VACUUM INTO ?').run(to)
  } finally {
    db.close()
  }
}
