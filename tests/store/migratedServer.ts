import { randomBytes } from 'node:crypto'
import pg from 'pg'
import { readMigrations } from '../../lib/store/migrate/migrations.ts'

/** The maintenance database of an empty cluster, as its superuser; undefined where no server runs. */
export const SERVER = process.env.LOWMARK_TEST_SERVER

/** A database of its own on the server of the tests, with every migration of PostgreSQL applied. */
export interface MigratedServer {
  /** As its owner, who is a superuser. */
  readonly client: pg.Client
  /** Makes a role of the cluster that may log in and nothing else, and answers its name. It goes with the database. */
  makeRole(): Promise<string>
  /** The address of the database for a role of the cluster. */
  addressFor(role: string): string
  /** A further connection, as a role of the cluster. */
  connectAs(role: string): Promise<pg.Client>
  /** Closes what is open and takes the database away. */
  dispose(): Promise<void>
}

function urlOf(database: string, role: string | null): string {
  const url = new URL(SERVER ?? '')
  url.pathname = `/${database}`
  if (role !== null) url.username = role
  return url.href
}

async function connected(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  return client
}

/** Makes the database. Throws where LOWMARK_TEST_SERVER names no server. */
export async function migratedServer(): Promise<MigratedServer> {
  const name = `tests_${randomBytes(6).toString('hex')}`
  const maintenance = await connected(SERVER ?? '')
  await maintenance.query(`CREATE DATABASE ${name} TEMPLATE template0`)
  const client = await connected(urlOf(name, null))
  for (const { sql } of readMigrations('prisma/postgresql/migrations')) await client.query(sql)
  const open = [client]
  const roles: string[] = []
  return {
    client,
    async makeRole() {
      const role = `${name}_${roles.length + 1}`
      await client.query(`CREATE ROLE ${role} LOGIN`)
      roles.push(role)
      return role
    },
    addressFor: (role) => urlOf(name, role),
    async connectAs(role) {
      const further = await connected(urlOf(name, role))
      open.push(further)
      return further
    },
    async dispose() {
      for (const one of open) await one.end()
      await maintenance.query(`DROP DATABASE ${name}`)
      for (const role of roles) await maintenance.query(`DROP ROLE ${role}`)
      await maintenance.end()
    },
  }
}
