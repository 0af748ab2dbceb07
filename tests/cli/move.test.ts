import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openStore } from '../../lib/store/index.ts'
import { consoleCall, fillDemonstration, renewStandings } from '../../lib/usecases/index.ts'
import { lowmark } from '../faults/console.ts'
import { fromOutside } from '../store/outside.ts'
import { dropDatabase, newDatabase, TEST_SERVER } from '../store/testServer.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'

interface Told {
  readonly tables: readonly { readonly name: string; readonly rows: number; readonly sha256: string }[]
  readonly head: { readonly sequence: number; readonly hash: string }
  readonly logRows: number
  readonly recheck: { readonly patients: number; readonly differences: readonly unknown[] }
}

// Without a server there is nowhere to move to.
describe.skipIf(TEST_SERVER === null)('lowmark move', { timeout: 240_000 }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'lowmark-tests-move-'))
  const file = `file:${join(folder, 'lowmark.db')}`
  const made: string[] = []
  const emptyDatabase = (): string => {
    const url = newDatabase()
    made.push(url)
    return url
  }

  beforeAll(async () => {
    const store = await openStore(file)
    granted(await fillDemonstration(callOf(store), { patients: 30, years: 2, seed: 11 }))
    await store.record({ actor: callOf(store).actor, now: callOf(store).now }, (tx) => ({
      value: tx.insertFile({
        name: 'large.csv',
        kind: null,
        source: null,
        rowsInFile: 0,
        receivedAt: callOf(store).now,
        receivedBy: 'test',
        refusedWhole: null,
        counts: null,
        bytes: Buffer.alloc(2_500_000, 0xfe),
      }),
      events: [{ action: 'backup-begun', encrypted: false }],
    }))
    await store.close()
  })
  afterAll(() => {
    for (const url of made) dropDatabase(url)
    rmSync(folder, { recursive: true, force: true })
  })

  it('moves every row, compares each cell, and goes on with the same log', async () => {
    const to = emptyDatabase()
    const { status, out, err } = await lowmark(file, ['move', to, '--json'])
    expect({ status, err: status === 0 ? '' : err }).toEqual({ status: 0, err: '' })
    const told = JSON.parse(out) as Told
    const rows = (name: string): number | undefined => told.tables.find((table) => table.name === name)?.rows
    const [there, here] = [await openStore(file), await openStore(to)]
    expect(rows('patient')).toBe(30)
    expect(rows('result')).toBe(there.reader.lastResultId())
    expect(rows('intake_file_chunk')).toBe(3)
    expect(told.head).toEqual(there.reader.trailHead())
    const { sequence } = told.head
    expect(here.reader.trailRows({ after: sequence, upTo: sequence + 1, limit: 1 })).toMatchObject([
      { action: 'moved-to-server', previousHash: told.head.hash },
    ])
    expect(here.reader.verifyTrail().firstBad).toBeNull()
    expect(told.recheck).toEqual({ patients: there.reader.patientIds().length, differences: [] })
    // To evaluate everybody is to renew whose answer has ended since: the file is as it was.
    await renewStandings(consoleCall(there, 'tests'))
    expect(here.reader.standingsInOrder()).toEqual(there.reader.standingsInOrder())
    expect(here.reader.databaseId()).toBe(there.reader.databaseId())
    expect(here.reader.beganAt()).toBe(there.reader.beganAt())
    for (const id of there.reader.patientIds()) expect(here.reader.loadHistory(id)).toEqual(there.reader.loadHistory(id))
    const last = there.reader.recentFiles(1)[0]?.id ?? 0
    expect(Buffer.concat([...here.reader.fileChunks(last)])).toEqual(Buffer.alloc(2_500_000, 0xfe))
    // The guards are back: the log is still append-only.
    const outside = fromOutside(to)
    expect(() => outside.run("UPDATE trail SET actor = 'x' WHERE sequence = 1")).toThrow('the log is append-only')
    outside.close()
    await there.close()
    await here.close()
  })

  it('overwrites nothing', async () => {
    const to = emptyDatabase()
    const store = await openStore(to)
    granted(await fillDemonstration(callOf(store), { patients: 3, years: 1, seed: 1 }))
    const head = store.reader.trailHead()
    await store.close()
    const { status, err } = await lowmark(file, ['move', to])
    expect(status).toBe(1)
    expect(err).toContain('is not empty')
    const after = await openStore(to)
    expect(after.reader.trailHead()).toEqual(head)
    await after.close()
  })

  it('keeps nothing where one cell cannot be kept as it was, and names the table', async () => {
    const url = `file:${join(folder, 'other.db')}`
    const store = await openStore(url)
    granted(await fillDemonstration(callOf(store), { patients: 3, years: 1, seed: 1 }))
    await store.close()
    // A text that ends at a zero byte for one engine and not for the other.
    const outside = fromOutside(url)
    outside.run("INSERT INTO setting (key, value) VALUES ('odd', 'a' || char(0) || 'b')")
    outside.close()
    const to = emptyDatabase()
    const { status, err } = await lowmark(url, ['move', to])
    expect(status).toBe(1)
    expect(err).toMatch(/Nothing was done: Of setting, [^\n]*\. Nothing was moved\.\n$/)
    const after = await openStore(to)
    expect(after.reader.isEmpty()).toBe(true)
    await after.close()
  })

  it('says what it does not know to move', async () => {
    expect((await lowmark(file, ['move', 'file:./other.db'])).err).toContain('Only to a server')
    expect((await lowmark('postgresql://nobody@127.0.0.1/x', ['move', 'postgresql://nobody@127.0.0.1/y'])).err).toContain('lies on a server already')
  })
})
