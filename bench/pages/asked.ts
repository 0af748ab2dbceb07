import type Database from 'better-sqlite3'
import { listFacets, standingsPage } from '../../lib/store/read/reviewList.ts'
import { FIRST_PAGE } from '../reviewList.ts'

type Connection = Parameters<typeof standingsPage>[0]

/** A statement and the values it was asked with. */
export interface Asked {
  readonly sql: string
  readonly cells: readonly (string | number)[]
}

/** The statements by which lib/store reads the first page and what stands beside it, asked of the code itself; the rows' statement first. */
export function askedForFirstPage(db: Database.Database): { readonly rows: Asked; readonly beside: readonly Asked[] } {
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
  standingsPage({ db, statement }, FIRST_PAGE)
  listFacets({ db, statement })
  const rows = asked.find(({ sql }) => sql.includes('LIMIT ? OFFSET ?'))
  if (rows === undefined) throw new Error('lib/store reads no page with a LIMIT any more.')
  return { rows, beside: asked.filter((each) => each !== rows) }
}
