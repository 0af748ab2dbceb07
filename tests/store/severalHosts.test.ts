import { spawn } from 'node:child_process'
import { join } from 'node:path'
import pg from 'pg'
import { afterEach, describe, expect, it } from 'vitest'
import { programs, startCluster } from '../../.ci/cluster.ts'
import { openStore, StoreBusy } from '../../lib/store/index.ts'
import { type FreshStore, freshStore } from './freshStore.ts'
import { fromOutside } from './outside.ts'
import { TEST_SERVER } from './testServer.ts'

const NOW = '2026-11-25T10:00:00.000Z'
const CALL = { actor: { name: 'one host', role: 'console', sessionHash: null, address: null, requestId: 'r' }, now: NOW } as const

function program(script: string, words: readonly string[]): Promise<{ readonly out: string; readonly signal: string | null }> {
  // The driver warns where a question comes before the answer to the last one, which it will refuse one day: here it is refused today.
  const env = { ...process.env, NODE_OPTIONS: '--throw-deprecation' }
  const args = ['--import', 'tsx', join(import.meta.dirname, script), ...words]
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'], env })
  let out = ''
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text
  })
  return new Promise((resolve) => child.once('close', (_, signal) => resolve({ out, signal })))
}

const count = (url: string): number => Number(fromOutsideOnce(url, "SELECT value FROM setting WHERE key = 'counted'") ?? 0)

function fromOutsideOnce(url: string, sql: string): string | undefined {
  const outside = fromOutside(url, { reading: true })
  const value = outside.value<string>(sql)
  outside.close()
  return value
}

describe.skipIf(TEST_SERVER === null)('several hosts on one server', { timeout: 240_000 }, () => {
  let fresh: FreshStore
  afterEach(() => fresh.dispose())

  const change = (store = fresh.store) =>
    store.record(CALL, (tx) => ({
      value: tx.setSetting('counted', String(Number(tx.setting('counted') ?? '0') + 1)),
      events: [{ action: 'backup-begun', encrypted: false }],
    }))

  it('take turns: no change is lost, and the log stays one chain without a gap', async () => {
    fresh = await freshStore()
    const hosts = ['north', 'south', 'east'].map((name) => program('hostWriting.ts', [fresh.url, name, '40']))
    for (let at = 0; at < 40; at++) await change()
    expect((await Promise.all(hosts)).map(({ out }) => out)).toEqual(['40\n', '40\n', '40\n'])
    expect(count(fresh.url)).toBe(160)
    expect(fresh.store.reader.verifyTrail()).toMatchObject({ rows: 160, firstBad: null, head: { sequence: 160 } })
    expect(fresh.store.reader.trailActors().toSorted()).toEqual(['east', 'north', 'one host', 'south'])
  })

  it('lose nothing to one that dies in the middle of a change, and do not wait for it', async () => {
    fresh = await freshStore()
    await change()
    const { out, signal } = await program('hostWriting.ts', [fresh.url, 'dying', '1', 'die'])
    expect({ out, signal }).toEqual({ out: 'in the middle\n', signal: 'SIGKILL' })
    await change()
    expect(count(fresh.url)).toBe(2)
    expect(fresh.store.reader.verifyTrail()).toMatchObject({ rows: 2, firstBad: null })
  })

  it('are told that another one writes, once their patience has ended', async () => {
    fresh = await freshStore()
    const impatient = await openStore(fresh.url, { patienceMs: 200 })
    const holding = new pg.Client(fresh.url)
    await holding.connect()
    await holding.query('BEGIN')
    await holding.query('SELECT pg_advisory_xact_lock(7210413)')
    await expect(change(impatient)).rejects.toBeInstanceOf(StoreBusy)
    // Whoever reads never waits.
    expect(impatient.reader.trailHead().sequence).toBe(0)
    await holding.end()
    await change(impatient)
    await impatient.close()
  })

  const endAll = (): void => {
    const outside = fromOutside(fresh.url)
    outside.run('SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()')
    outside.close()
  }

  it('go on after their connections were ended, and keep nothing of a change that was ended in the middle', async () => {
    fresh = await freshStore()
    await change()
    endAll()
    await change()
    expect(fresh.store.reader.setting('counted')).toBe('2')
    const inTheMiddle = fresh.store.record(CALL, (tx) => {
      tx.setSetting('counted', '100')
      endAll()
      return { value: tx.setting('counted'), events: [{ action: 'backup-begun', encrypted: false }] }
    })
    await expect(inTheMiddle).rejects.toMatchObject({ name: 'ServerFault', lost: true })
    await change()
    expect(count(fresh.url)).toBe(3)
    expect(fresh.store.reader.verifyTrail()).toMatchObject({ rows: 3, firstBad: null })
  })

  it('read many things of one moment after their connections were ended; what was ended in between is told, not pieced together', async () => {
    fresh = await freshStore()
    await change()
    const { reader } = fresh.store
    const both = () => reader.atOnce(() => [reader.setting('counted'), reader.trailHead().sequence])
    endAll()
    expect(both()).toEqual(['1', 1])
    const inTheMiddle = () =>
      reader.atOnce(() => {
        const first = reader.setting('counted')
        endAll()
        return [first, reader.trailHead().sequence]
      })
    expect(inTheMiddle).toThrow(expect.objectContaining({ name: 'ServerFault', lost: true }))
    expect(both()).toEqual(['1', 1])
    await change()
    expect(both()).toEqual(['2', 2])
  })

  it('ask the driver nothing before it has answered what came before, though nobody waits for some of it', async () => {
    fresh = await freshStore()
    expect(await program('hostReading.ts', [fresh.url, '200'])).toEqual({ out: '200\n', signal: null })
  })

  it('hold on to no moment they have read', async () => {
    fresh = await freshStore()
    const { reader } = fresh.store
    expect(reader.atOnce(() => reader.setting('counted'))).toBeNull()
    expect(() =>
      reader.atOnce(() => {
        reader.setting('counted')
        throw new Error('in the middle')
      }),
    ).toThrow('in the middle')
    expect(reader.atOnce(() => 'nothing asked')).toBe('nothing asked')
    const HELD = "SELECT count(*) AS held FROM pg_stat_activity WHERE datname = current_database() AND state LIKE 'idle in transaction%'"
    await expect.poll(() => Number(fromOutsideOnce(fresh.url, HELD))).toBe(0)
    expect(reader.setting('counted')).toBeNull()
  })
})

const bin = programs()

// On a cluster of its own: what it sets is set for a whole one.
describe.skipIf(TEST_SERVER === null || bin === null)('a commit that was kept and never answered', { timeout: 240_000 }, () => {
  it('is told as kept', async () => {
    const cluster = await startCluster(bin ?? '')
    try {
      const store = await openStore(cluster.url)
      const admin = new pg.Client(cluster.url)
      await admin.connect()
      await admin.query("ALTER SYSTEM SET synchronous_standby_names = 'nobody'")
      await admin.query('SELECT pg_reload_conf()')
      await admin.end()
      const ended = program('terminating.ts', [cluster.url])
      const told = await store.record(CALL, (tx) => ({
        value: tx.setSetting('counted', '7'),
        events: [{ action: 'backup-begun', encrypted: false }],
      }))
      expect(told).toBeUndefined()
      await ended
      expect(count(cluster.url)).toBe(7)
      expect(store.reader.verifyTrail()).toMatchObject({ rows: 1, firstBad: null })
      await store.close()
    } finally {
      cluster.end()
    }
  })
})
