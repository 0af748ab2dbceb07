import { statSync } from 'node:fs'
import Database from 'better-sqlite3'
import { copyDatabase, placeFor } from '../databases.ts'
import { driverVersion } from '../machine.ts'
import type { Engine, Plain, Value } from './engine.ts'

const pathOf = (url: string): string => url.slice('file:'.length)
const sizeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0

function plain(url: string): Plain {
  const db = new Database(pathOf(url), { readonly: true })
  return {
    all: async <Row>(sql: string, ...values: readonly Value[]) => db.prepare(sql).all(...values) as Row[],
    close: async () => void db.close(),
  }
}

/** Every database a file of SQLite under the operating system's temporary folder. */
export const onFiles: Engine = {
  name: 'sqlite',
  server: null,
  says: `SQLite ${driverVersion()}`,
  ofFile: async (path) => `file:${path}`,
  async copyOf(url, name) {
    copyDatabase(pathOf(url), placeFor(name))
    return `file:${placeFor(name)}`
  },
  plain: async (url) => plain(url),
  bytesOf: async (url) => ({ database: sizeOf(pathOf(url)), wal: sizeOf(`${pathOf(url)}-wal`) }),
}
