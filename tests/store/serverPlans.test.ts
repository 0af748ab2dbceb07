import { describe, expect, it } from 'vitest'
import { connectServer } from '../../lib/store/postgres/connectServer.ts'
import { csv, patientRow, resultRow, take } from '../usecases/clinic.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside } from './outside.ts'
import { TEST_SERVER } from './testServer.ts'

const UNTIL_PLANS_ARE_OLD = 64

describe.skipIf(TEST_SERVER === null)('a plan of a server', { timeout: 60_000 }, () => {
  it('that was made while a table was empty is made anew once rows have come, with nobody looking through the tables', async () => {
    const { store, url, dispose } = await freshStore()
    // As autovacuum leaves a new database: then the tables are known to be empty, which to read looks cheaper than any index.
    const outside = fromOutside(url)
    outside.exec('ANALYZE result')
    outside.close()
    const connection = connectServer(url, { reading: true })
    try {
      // The first statement of a connection is its first prepared one.
      const last = connection.statement<{ last: number }>('SELECT coalesce(max(id), 0) AS last FROM result')
      const plan = () =>
        connection
          .statement<{ 'QUERY PLAN': string }>('EXPLAIN EXECUTE s1')
          .all()
          .map((row) => row['QUERY PLAN'])
          .join('\n')
      expect(last.get()).toEqual({ last: 0 })
      expect(plan()).toContain('Seq Scan')
      const rows = Array.from({ length: 1_500 }, (_, at) => resultRow({ accession: `A${at}` }))
      await take(store, [csv('patients.csv', [patientRow()]), csv('results.csv', rows)])
      for (let at = 0; at < UNTIL_PLANS_ARE_OLD; at++) expect(last.get()).toEqual({ last: 1_500 })
      expect(plan()).toContain('Index Only Scan')
      expect(plan()).not.toContain('Seq Scan')
    } finally {
      connection.close()
      await dispose()
    }
  })
})
