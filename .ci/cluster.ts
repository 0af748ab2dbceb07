/** A PostgreSQL cluster to throw away: made in a directory of its own, on a free port of this machine alone. */
import { spawnSync } from 'node:child_process'
import { appendFileSync, chownSync, existsSync, mkdtempSync, readdirSync, rmSync, statfsSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'

const DEBIAN = '/usr/lib/postgresql'

/** The directory of PostgreSQL's programs: on the PATH, or the newest of Debian's; null where none is installed. */
export function programs(): string | null {
  const versions = existsSync(DEBIAN) ? readdirSync(DEBIAN).toSorted((a, b) => Number(b) - Number(a)) : []
  const places = [...(process.env.PATH ?? '').split(delimiter), ...versions.map((version) => join(DEBIAN, version, 'bin'))]
  return places.find((place) => ['initdb', 'pg_ctl', 'postgres'].every((name) => existsSync(join(place, name)))) ?? null
}

interface Owner {
  readonly uid: number
  readonly gid: number
}

/** Whom the cluster runs as: `initdb` refuses root, so root hands it to another account; null for the account that asks. */
function owner(): Owner | null {
  if (process.getuid?.() !== 0) return null
  const number = (flag: string, name: string): number => Number(spawnSync('id', [flag, name], { encoding: 'utf8' }).stdout.trim() || Number.NaN)
  for (const name of ['postgres', 'nobody']) {
    const [uid, gid] = [number('-u', name), number('-g', name)]
    if (Number.isInteger(uid) && Number.isInteger(gid)) return { uid, gid }
  }
  throw new Error('There is neither an account "postgres" nor "nobody" to run PostgreSQL as.')
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer()
    server.once('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const address = server.address()
      server.close(() => (address !== null && typeof address === 'object' ? resolve(address.port) : reject(new Error('no free port'))))
    })
  })
}

const MEMORY = '/dev/shm'
const ROOM_BYTES = 4 * 2 ** 30

/** Where a cluster lies. Making and dropping a database waits for the disk: in memory, where there is room, that takes a tenth of the time. */
function place(onDisk: boolean): string {
  if (onDisk || !existsSync(MEMORY)) return tmpdir()
  const { bavail, bsize } = statfsSync(MEMORY)
  return bavail * bsize > ROOM_BYTES ? MEMORY : tmpdir()
}

/**
 * What the tests need, for databases that are gone after a moment; those on the disk stay long enough for the server to look after them. `fsync` and
 * `synchronous_commit` stay on, since the program refuses a server without them.
 */
const settings = (directory: string, port: number, onDisk: boolean): string => `
listen_addresses = '127.0.0.1'
port = ${port}
unix_socket_directories = '${directory}'
max_connections = 200
fsync = on
synchronous_commit = on
max_wal_size = 1GB
checkpoint_timeout = 30min
autovacuum = ${onDisk ? 'on' : 'off'}
`

export interface Cluster {
  /** Its superuser's address, of the database `postgres`. */
  readonly url: string
  /** Stops it and removes everything it kept. */
  readonly end: () => void
}

/** Makes and starts a cluster, on the disk or where there is most speed. Throws, with what the failing program said, when it cannot. */
export async function startCluster(bin: string, onDisk = false): Promise<Cluster> {
  const directory = mkdtempSync(join(place(onDisk), 'lowmark-server-'))
  const as = owner()
  if (as !== null) chownSync(directory, as.uid, as.gid)
  const data = join(directory, 'data')
  const run = (name: string, args: readonly string[]): void => {
    // The server keeps its output open for as long as it runs: it is written to a file, and none of it is waited for.
    const done = spawnSync(join(bin, name), args, { ...as, cwd: directory, encoding: 'utf8', stdio: ['ignore', 'ignore', 'pipe'] })
    if (done.status !== 0) throw new Error(`${name} ended with ${done.status ?? done.signal}: ${done.stderr}`)
  }
  const log = join(directory, 'log')
  const end = (): void => {
    try {
      if (existsSync(join(data, 'postmaster.pid'))) run('pg_ctl', ['stop', '-D', data, '-m', 'immediate', '-w', '-s'])
    } finally {
      rmSync(directory, { recursive: true, force: true })
    }
  }
  try {
    const port = await freePort()
    run('initdb', ['-D', data, '-U', 'postgres', '-A', 'trust', '-E', 'UTF8', '--locale=C.UTF-8', '--no-sync'])
    appendFileSync(join(data, 'postgresql.conf'), settings(directory, port, onDisk))
    run('pg_ctl', ['start', '-D', data, '-l', log, '-w', '-s'])
    return { url: `postgresql://postgres@127.0.0.1:${port}/postgres`, end }
  } catch (error) {
    end()
    throw error
  }
}
