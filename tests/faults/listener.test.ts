import { type ChildProcess, spawn } from 'node:child_process'
import { setTimeout as pause } from 'node:timers/promises'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { recheck } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { keepWriting } from '../store/keepWriting.ts'
import { fromOutside } from '../store/outside.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { csv, patientRow, take } from '../usecases/clinic.ts'
import { type Child, startChild } from './child.ts'
import { freePort } from './freePort.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
})
afterEach(() => fresh.dispose())

interface Life {
  readonly process: ChildProcess
  readonly ended: Promise<number | null>
  /** What it said on standard error. */
  readonly said: () => string
}

/** Starts the listener as a program of its own; resolves when it listens. */
async function startListening(port: number): Promise<Life> {
  const words = ['lib/cli/main.ts', 'listen', '--port', String(port), '--source', 'laboratories']
  const program = spawn(process.execPath, ['--import', 'tsx', ...words], {
    stdio: ['ignore', 'inherit', 'pipe'],
    env: { ...process.env, DATABASE_URL: fresh.url },
  })
  let said = ''
  program.stderr.setEncoding('utf8').on('data', (text: string) => {
    said += text
  })
  const ended = new Promise<number | null>((resolve) => program.once('exit', (status) => resolve(status)))
  while (!said.includes('Listening on')) {
    if (program.exitCode !== null) throw new Error(`the listener ended: ${said}`)
    await pause(5)
  }
  return { process: program, ended, said: () => said }
}

const NAMES = ['EAST', 'WEST'] as const
const EACH = 120
const KILLS = 5

/**
 * Kills the listener at a moment of chance. Every other time while another program writes: then messages are in hand that cannot be committed, and an
 * acknowledgement that came too early would be one of something that is not there.
 */
async function kill(life: Life, isLocked: boolean): Promise<void> {
  const letGo = isLocked ? keepWriting(fresh.url) : () => undefined
  await pause(Math.random() * 15 + (isLocked ? 100 : 0))
  life.process.kill('SIGKILL')
  expect(await life.ended).toBe(null)
  letGo()
}

test('two senders at once, the listener killed again and again: everything acknowledged is there exactly once', async () => {
  const patients = [0, 1, 2, 3].map((n) => patientRow({ patient_id: `P${n}` }))
  await take(fresh.store, [csv('patients.csv', patients)])
  const port = await freePort()
  let life = await startListening(port)
  const senders: Child[] = NAMES.map((name) => startChild('sending.ts', String(port), name, String(EACH)))
  const acknowledged = () => senders.reduce((sum, { lines }) => sum + lines.length, 0)
  for (let kills = 0; kills < KILLS; kills++) {
    const enough = Math.min(acknowledged() + 5 + Math.random() * 30, 2 * EACH - 10)
    while (acknowledged() < enough) await pause(1)
    await kill(life, kills % 2 === 0)
    life = await startListening(port)
  }
  expect(await Promise.all(senders.map(({ ended }) => ended))).toEqual([0, 0])
  life.process.kill('SIGTERM')
  expect([await life.ended, life.said()]).toEqual([0, expect.stringContaining('Stopped listening')])

  const numbers = Array.from({ length: EACH }, (_, n) => String(n))
  expect(senders.map(({ lines }) => lines)).toEqual([numbers, numbers])
  const db = fromOutside(fresh.url, { reading: true })
  const ids = NAMES.flatMap((name) => numbers.map((n) => `${name}-${n}`)).toSorted()
  expect(db.values('SELECT control_id FROM hl7_message ORDER BY control_id')).toEqual(ids)
  const rows = db.values("SELECT accession || ' ' || code || ' ' || version FROM result ORDER BY 1")
  expect(rows).toEqual(ids.flatMap((id) => [`${id} 2465-3 1`, `${id} 33358-3 1`]).toSorted())
  const kept = db.value(
    "SELECT count(*) FROM intake_file WHERE source = 'laboratories' AND filed = 2 AND rows_read = 2 AND refused_whole_reason IS NULL",
  )
  expect([kept, db.value('SELECT count(*) FROM intake_file')]).toEqual([2 * EACH, 2 * EACH + 1])
  const counted = db.all<{ action: string; n: number }>('SELECT action, count(*) AS n FROM trail GROUP BY action')
  const times = new Map(counted.map(({ action, n }) => [action, n]))
  expect([times.get('intake'), times.get('listener-started'), times.get('listener-stopped')]).toEqual([2 * EACH + 1, KILLS + 1, 1])
  // Acknowledgements were lost on the way: these messages came again.
  expect(times.get('message-repeated') ?? 0).toBeGreaterThan(5)
  db.close()
  expect(fresh.store.reader.verifyTrail().firstBad).toBe(null)
  expect(granted(await recheck(callOf(fresh.store))).differences).toEqual([])
}, 240_000)
