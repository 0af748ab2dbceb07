import { randomBytes } from 'node:crypto'
import type { Connection } from '../../lib/store/connection.ts'
import { connectServer } from '../../lib/store/postgres/connectServer.ts'

/** The PostgreSQL server these tests run on, as `.ci/server.ts` starts one; null for files of SQLite. */
export const TEST_SERVER: string | null = process.env.LOWMARK_TEST_SERVER ?? null

export const isOnServer = (url: string): boolean => url.startsWith('postgresql:')

// Several test processes share a server: each names its own databases.
const own = `lowmark_${process.pid}_${randomBytes(3).toString('hex')}`
const made = new Set<string>()
let counter = 0
let known: Connection | null = null

function asked(): Connection {
  if (TEST_SERVER === null) throw new Error('LOWMARK_TEST_SERVER names no server.')
  if (known === null) {
    known = connectServer(TEST_SERVER, { reading: false })
    process.once('exit', () => {
      for (const name of made) drop(name)
    })
  }
  return known
}

function drop(name: string): void {
  asked().exec(`DROP DATABASE IF EXISTS "${name}" WITH (FORCE)`)
  made.delete(name)
}

const nameOf = (url: string): string => new URL(url).pathname.slice(1)

/** The address of a new database: empty, or a copy of another that nobody has open. */
export function newDatabase(copyOf: string | null = null): string {
  const name = `${own}_${++counter}`
  // Files copied, not their pages logged one by one: the quicker way for a database that is gone soon.
  asked().exec(`CREATE DATABASE "${name}" TEMPLATE "${copyOf === null ? 'template0' : nameOf(copyOf)}" STRATEGY FILE_COPY`)
  made.add(name)
  const url = new URL(TEST_SERVER ?? '')
  url.pathname = `/${name}`
  return url.href
}

/** Takes a database away, whoever still has it open. */
export const dropDatabase = (url: string): void => drop(nameOf(url))
