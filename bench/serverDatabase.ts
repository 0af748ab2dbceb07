import { randomBytes } from 'node:crypto'
import pg from 'pg'

/** The server to throw away that `.ci/server.ts` starts; null where the bench was started without one. */
export const BENCH_SERVER: string | null = process.env.LOWMARK_TEST_SERVER ?? null

async function connected(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  return client
}

/** Asks a database on a server past the program, one statement after the other, and answers the rows of the last. Numbers of eight bytes come as text. */
export async function askedOf<Row extends object>(url: string, ...statements: readonly string[]): Promise<readonly Row[]> {
  const client = await connected(url)
  try {
    let rows: readonly Row[] = []
    for (const sql of statements) rows = (await client.query<Row>(sql)).rows
    return rows
  } finally {
    await client.end()
  }
}

/** The address of a database of this name on the same server. */
export function addressOf(server: string, name: string): string {
  const url = new URL(server)
  url.pathname = `/${name}`
  return url.href
}

/** The name of the database an address is of. */
export const nameOf = (url: string): string => new URL(url).pathname.slice(1)

/** Makes an empty database on the server, and answers its address. */
export async function emptyDatabase(server: string): Promise<string> {
  const name = `bench_${process.pid}_${randomBytes(3).toString('hex')}`
  await askedOf(server, `CREATE DATABASE ${name} TEMPLATE template0`)
  return addressOf(server, name)
}

/** Makes an empty database on the server, runs `work` with its address, and takes it away, whoever still has it open. */
export async function withServerDatabase<T>(server: string, work: (url: string) => Promise<T>): Promise<T> {
  const url = await emptyDatabase(server)
  try {
    return await work(url)
  } finally {
    await askedOf(server, `DROP DATABASE ${nameOf(url)} WITH (FORCE)`)
  }
}
