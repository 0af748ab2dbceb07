import { spawnSync } from 'node:child_process'
import { cpus, loadavg, totalmem } from 'node:os'
import Database from 'better-sqlite3'

/** What the figures were taken on. */
export interface Machine {
  readonly cpu: string
  readonly cores: number
  readonly memoryGiB: number
  /** Processes that wanted to run over the last minute: above the cores, the figures are of a busy machine. */
  readonly load: number
  readonly node: string
  /** The SQLite inside the driver, and that of the shell; null where there is no shell. */
  readonly sqlite: string
  readonly sqliteShell: string | null
}

/** The version of the sqlite3 shell; null where it is not installed. */
export function shellVersion(): string | null {
  const asked = spawnSync('sqlite3', ['--version'], { encoding: 'utf8' })
  return asked.status === 0 ? (asked.stdout.split(' ')[0] ?? null) : null
}

export function machine(): Machine {
  const db = new Database(':memory:')
  const sqlite = db.prepare<[], { version: string }>('SELECT sqlite_version() AS version').get()?.version ?? 'unknown'
  db.close()
  return {
    cpu: cpus()[0]?.model ?? 'unknown',
    cores: cpus().length,
    memoryGiB: Math.round(totalmem() / 2 ** 30),
    load: loadavg()[0] ?? 0,
    node: process.version,
    sqlite,
    sqliteShell: shellVersion(),
  }
}
