import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import { PrismaClient } from '../generated/client.ts'
import { pragmaScript, requirePragmas } from './pragmas.ts'

/** The adapter sets no pragmas of its own, so its connection is made ours as it opens; `query_only` keeps every write out of it. */
class ReadingAdapter extends PrismaBetterSqlite3 {
  readonly #waitMs: number

  constructor(path: string, waitMs: number) {
    super({ url: `file:${path}`, timeout: waitMs, fileMustExist: true })
    this.#waitMs = waitMs
  }

  override async connect() {
    const connection = await super.connect()
    await connection.executeScript(pragmaScript(this.#waitMs))
    const answers = new Map<string, unknown>()
    for (const name of ['journal_mode', 'synchronous', 'foreign_keys', 'busy_timeout']) {
      const { rows } = await connection.queryRaw({ sql: `PRAGMA ${name}`, args: [], argTypes: [] })
      answers.set(name, rows[0]?.[0])
    }
    requirePragmas((name) => answers.get(name), this.#waitMs)
    return connection
  }
}

/** Prisma's client for page reads, on a connection of its own that refuses writes. It connects on first use. */
export function pageReads(path: string, waitMs: number): PrismaClient {
  return new PrismaClient({ adapter: new ReadingAdapter(path, waitMs) })
}
