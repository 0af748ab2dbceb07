import pg from 'pg'
import { moveDatabase, openStore } from '../../lib/store/index.ts'
import { sqlForServer } from '../../lib/store/postgres/sqlForServer.ts'
import { addressOf, askedOf, emptyDatabase, nameOf } from '../serverDatabase.ts'
import type { Engine, Plain, Value } from './engine.ts'

const BYTES = 'SELECT pg_database_size(current_database()) AS "database", (SELECT sum(size) FROM pg_ls_waldir()) AS wal'
const PATIENCE_MS = 60_000
// A bigint is a count here, and no count of the bench is beyond a number of JavaScript.
const types = { getTypeParser: (oid: number) => (oid === pg.types.builtins.INT8 ? Number : pg.types.getTypeParser(oid)) } as pg.CustomTypesConfig

async function plain(url: string): Promise<Plain> {
  const client = new pg.Client({ connectionString: url, types })
  await client.connect()
  const names = new Map<string, string>()
  /** Prepared once, as the program's statements are. */
  const statementOf = (sql: string): string => {
    const name = names.get(sql) ?? `plain_${names.size}`
    names.set(sql, name)
    return name
  }
  return {
    all: async <Row extends object>(sql: string, ...values: readonly Value[]) =>
      (await client.query<Row>({ name: statementOf(sql), text: sqlForServer(sql), values: [...values] })).rows,
    close: () => client.end(),
  }
}

/** Every database one of a PostgreSQL server that is there to be thrown away. Those made here are taken away with it. */
export async function onServer(server: string): Promise<Engine> {
  const [about] = await askedOf<{ server_version: string }>(server, 'SHOW server_version')
  return {
    name: 'postgresql',
    server,
    says: `PostgreSQL ${about?.server_version ?? 'unknown'}`,
    async ofFile(path) {
      const url = await emptyDatabase(server)
      await (await openStore(url)).close()
      await moveDatabase(`file:${path}`, url, PATIENCE_MS, () => undefined)
      // Planned for what lies in it, as on a server that has had it for a day.
      await askedOf(url, 'VACUUM (ANALYZE)')
      return url
    },
    async copyOf(url, name) {
      const copy = `bench_${process.pid}_${name.replaceAll(/\W/g, '_')}`
      await askedOf(server, `DROP DATABASE IF EXISTS ${copy} WITH (FORCE)`, `CREATE DATABASE ${copy} TEMPLATE ${nameOf(url)} STRATEGY FILE_COPY`)
      return addressOf(server, copy)
    },
    plain,
    async bytesOf(url) {
      const [row] = await askedOf<{ database: string; wal: string }>(url, BYTES)
      return { database: Number(row?.database), wal: Number(row?.wal) }
    },
  }
}
