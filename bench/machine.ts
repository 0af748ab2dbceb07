import { spawnSync } from 'node:child_process'
import { closeSync, fsyncSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs'
import { cpus, loadavg, tmpdir, totalmem } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { spreadOf } from './measure.ts'

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
  /** The file system the databases of the bench lie on, and how long it takes to have 4 KiB on the disk, ms, the median of a hundred. */
  readonly disk: string
  readonly fsyncMs: number
}

const SYNCS = 100

function fsyncMs(): number {
  const path = join(tmpdir(), `lowmark-fsync-${process.pid}`)
  const [file, page] = [openSync(path, 'w'), Buffer.alloc(4096, 1)]
  const times = Array.from({ length: SYNCS }, (_, at) => {
    writeSync(file, page, 0, page.length, at * page.length)
    const began = performance.now()
    fsyncSync(file)
    return performance.now() - began
  })
  closeSync(file)
  rmSync(path)
  return spreadOf(times).median
}

/** The mount the temporary folder lies on, as Linux tells it: what is mounted, and its kind; 'unknown' elsewhere. */
function diskOfTemporary(): string {
  try {
    const mounts = readFileSync('/proc/mounts', 'utf8')
      .trimEnd()
      .split('\n')
      .map((line) => line.split(' '))
    const under = ([, at = '']: string[]) => at === '/' || `${tmpdir()}/`.startsWith(`${at}/`)
    const [what, , kind] = mounts.filter(under).toSorted((a, b) => (b[1] ?? '').length - (a[1] ?? '').length)[0] ?? []
    return what === undefined ? 'unknown' : `${what} ${kind}`
  } catch {
    return 'unknown'
  }
}

/** The version of the sqlite3 shell; null where it is not installed. */
export function shellVersion(): string | null {
  const asked = spawnSync('sqlite3', ['--version'], { encoding: 'utf8' })
  return asked.status === 0 ? (asked.stdout.split(' ')[0] ?? null) : null
}

/** The version of SQLite inside the driver. */
export function driverVersion(): string {
  const db = new Database(':memory:')
  const version = db.prepare<[], { version: string }>('SELECT sqlite_version() AS version').get()?.version ?? 'unknown'
  db.close()
  return version
}

export function machine(): Machine {
  return {
    cpu: cpus()[0]?.model ?? 'unknown',
    cores: cpus().length,
    memoryGiB: Math.round(totalmem() / 2 ** 30),
    load: loadavg()[0] ?? 0,
    node: process.version,
    sqlite: driverVersion(),
    sqliteShell: shellVersion(),
    disk: diskOfTemporary(),
    fsyncMs: fsyncMs(),
  }
}
