import type { Cell, Connection, Prepared, WritingConnection } from '../../lib/store/connection.ts'
import { connectServer } from '../../lib/store/postgres/connectServer.ts'
import { connectFile } from '../../lib/store/sqlite/connectFile.ts'
import { isOnServer } from './testServer.ts'

/** A connection that counts the statements asked through it: on a server each is a journey there and back. */
export interface Counting {
  readonly connection: Connection & Pick<WritingConnection, 'begin' | 'commit'>
  /** How many were asked so far. */
  count(): number
  /** How many were asked by this. */
  asked(work: () => void): number
  close(): void
}

// As long as a test's own writes hold it at most.
const WAIT_MS = 20_000

/** A second connection to a test's database, of either engine. */
export function counting(url: string, { reading }: { readonly reading: boolean }): Counting {
  const inner = isOnServer(url) ? connectServer(url, { reading }) : connectFile(url.slice('file:'.length), { reading, waitMs: WAIT_MS })
  let count = 0
  function counted<R>(ask: (...cells: readonly Cell[]) => R): (...cells: readonly Cell[]) => R {
    return (...cells) => {
      count += 1
      return ask(...cells)
    }
  }
  const statement = <Row>(sql: string): Prepared<Row> => {
    const prepared = inner.statement<Row>(sql)
    return {
      get: counted((...cells) => prepared.get(...cells)),
      all: counted((...cells) => prepared.all(...cells)),
      run: counted((...cells) => prepared.run(...cells)),
    }
  }
  return {
    connection: { ...inner, statement },
    count: () => count,
    asked(work) {
      const before = count
      work()
      return count - before
    },
    close: () => inner.close(),
  }
}
