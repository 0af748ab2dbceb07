import type Database from 'better-sqlite3'
import { sqlForServer } from '../../lib/store/postgres/sqlForServer.ts'
import { havingNow } from '../../lib/store/read/assignments.ts'
import { listFacets, standingsPage } from '../../lib/store/read/reviewList.ts'
import { endedRounds } from '../../lib/store/read/rounds.ts'
import { countOpen, newsCounts } from '../../lib/store/read/sinceRound.ts'
import { FIRST_PAGE } from '../reviewList.ts'

type Connection = Parameters<typeof standingsPage>[0]

/** A statement and the values it was asked with. */
export interface Asked {
  readonly sql: string
  readonly cells: readonly (string | number)[]
}

/** What a minimal page asks: who stands on the page, then all of them by their numbers, as one JSON text, then what stands beside the rows. */
export interface AskedForPage {
  readonly ids: Asked
  readonly rows: string
  readonly beside: readonly Asked[]
}

/** The same as a server takes it. */
export function askedOfServer({ ids, rows, beside }: AskedForPage): AskedForPage {
  const forServer = (asked: Asked): Asked => ({ ...asked, sql: sqlForServer(asked.sql) })
  return { ids: forServer(ids), rows: sqlForServer(rows), beside: beside.map(forServer) }
}

/** The statements by which lib/store reads the first page and what it says of everybody, asked of the code itself: they cannot drift away from it. */
export function askedForFirstPage(db: Database.Database): AskedForPage {
  const asked: Asked[] = []
  const statement = ((sql: string) => {
    const prepared = db.prepare(sql)
    const noting =
      <T>(answer: (...cells: (string | number)[]) => T) =>
      (...cells: (string | number)[]) => {
        asked.push({ sql, cells })
        return answer(...cells)
      }
    return { all: noting((...cells) => prepared.all(...cells)), get: noting((...cells) => prepared.get(...cells)) }
  }) as unknown as Connection['statement']
  const connection = { statement, snapshot: <T>(read: () => T) => read() } as Connection
  standingsPage(connection, FIRST_PAGE)
  listFacets(connection)
  const since = endedRounds(connection, 1)[0]
  if (since !== undefined) newsCounts(connection, since.id)
  countOpen(connection)
  havingNow(connection)
  const ids = asked.find(({ sql }) => sql.includes('LIMIT ? OFFSET ?'))
  const rows = asked.find(({ sql }) => sql.includes('answer'))?.sql
  if (ids === undefined || rows === undefined) throw new Error('lib/store reads no page of ids and then its rows any more.')
  return { ids, rows, beside: asked.filter((each) => each !== ids && each.sql !== rows) }
}
