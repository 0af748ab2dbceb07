import { randomBytes } from 'node:crypto'
import { existsSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type BackupSaid, backedUp, keysOf, lookedThrough, namesIn, type SmallClinic, smallClinic } from '../cli/backups.ts'
import { json, lowmark } from '../cli/terminal.ts'
import { FILE } from '../store/samples.ts'
import { callOf } from '../usecases/accounts/persons.ts'
import { type Child, startChild, untilPrinted } from './child.ts'
import { smallDisk } from './mounted.ts'
import { canMake } from './needs.ts'

let clinic: SmallClinic
beforeEach(async () => {
  clinic = await smallClinic()
})
afterEach(() => clinic.dispose())

/** Makes the database so large that copying it takes a while. */
async function grow(mib: number): Promise<void> {
  for (let n = 0; n < mib; n++)
    await clinic.store.record(callOf(clinic.store), (tx) => ({
      value: tx.insertFile({ ...FILE, name: `large-${n}.csv`, bytes: randomBytes(2 ** 20) }),
      events: [{ action: 'sign-out' }],
    }))
}

const unfinished = (...folders: string[]): string[] => folders.flatMap(namesIn).filter((name) => name.includes('lowmark-part'))
// Programs of their own start slowly on a busy machine.
const LONG_MS = 240_000

const elsewhereFile = (): string => clinic.elsewhereUrl.slice('file:'.length)

test(
  'a backup beside running intake is one moment: all that was acknowledged before, nothing half, log and standings whole; and intake goes on',
  async () => {
    await grow(40)
    const child = startChild('takingIn.ts', clinic.url, '100000')
    await untilPrinted(child, 3)
    const made: { path: string; before: number; after: number }[] = []
    for (let n = 0; n < 2; n++) {
      const before = child.lines.length
      const { path } = await backedUp(clinic, clinic.at('backups', `${n}.db`))
      // What the other program printed meanwhile is read only now.
      await pause(50)
      made.push({ path, before, after: child.lines.length })
    }
    child.process.kill('SIGKILL')
    await child.ended
    for (const { before, after } of made) expect(after).toBeGreaterThan(before)
    for (const [n, { path, before }] of made.entries()) {
      const url = `file:${clinic.at(`restored-${n}`, 'lowmark.db')}`
      const restored = await lowmark(url, 'restore', path)
      expect(restored.status, restored.err).toBe(0)
      await lookedThrough(url, ({ reader }) => {
        for (let file = 0; file < before; file++) expect(reader.versionsOfPatient(`W${file}`), `W${file} of ${before}`).toHaveLength(2)
        const patients = reader
          .patientIds()
          .filter((id) => id.startsWith('W'))
          .toSorted((a, b) => Number(a.slice(1)) - Number(b.slice(1)))
        expect(patients.length).toBeGreaterThanOrEqual(before)
        // A patient is there whole or not yet: its rows come in files of their own, in this order.
        for (const id of patients.slice(0, -1)) expect(reader.eventVersionsOf(id).length, id).toBeGreaterThan(0)
      })
    }
  },
  LONG_MS,
)

/** Waits until a child has begun something unfinished in one of these folders, and so many milliseconds more. */
async function halfWay(child: Child, ms: number, ...folders: string[]): Promise<void> {
  while (unfinished(...folders).length === 0 && child.process.exitCode === null) await pause(2)
  await pause(ms)
}

test(
  'killed half way, at moments that differ: nothing has a final name that is not whole, and the next backup takes away what was left',
  async () => {
    await grow(40)
    const { recipients } = await keysOf(clinic)
    const [folder, own] = [clinic.at('backups'), clinic.url.slice('file:'.length, clinic.url.lastIndexOf('/'))]
    let left = 0
    // The last is killed as it begins, so that something is left for the backup after it.
    for (const [round, ms] of [900, 400, 150, 0].entries()) {
      const words = round % 2 === 0 ? [] : ['--recipient-file', recipients]
      const child = startChild('commanding.ts', clinic.url, 'backup', folder, ...words)
      await halfWay(child, ms * Math.random(), folder, own)
      child.process.kill('SIGKILL')
      await child.ended
      // What the round before had left was taken away by this one.
      left = unfinished(folder, own).length
      for (const name of namesIn(folder).filter((name) => /^lowmark-.*\.(?:db|age)$/.test(name)))
        expect(await clinic.run('backup', 'verify', clinic.at('backups', name))).toMatchObject({ status: 0 })
    }
    expect(left).toBeGreaterThan(0)
    const { path, leftovers } = await backedUp(clinic, clinic.at('backups', 'after.db'))
    expect(leftovers).toHaveLength(left)
    expect(unfinished(folder, own)).toEqual([])
    expect(await clinic.run('backup', 'verify', path)).toMatchObject({ status: 0 })
    expect(clinic.store.reader.verifyTrail().firstBad).toBe(null)
  },
  LONG_MS,
)

test(
  'asked to stop, it takes away what is unfinished before it ends',
  async () => {
    await grow(20)
    const { recipients } = await keysOf(clinic)
    const [folder, own] = [clinic.at('backups'), clinic.url.slice('file:'.length, clinic.url.lastIndexOf('/'))]
    const child = startChild('commanding.ts', clinic.url, 'backup', folder, '--recipient-file', recipients)
    await halfWay(child, 50, folder, own)
    child.process.kill('SIGTERM')
    expect(await child.ended).toBe(1)
    expect([...namesIn(folder), ...unfinished(own)]).toEqual([])
  },
  LONG_MS,
)

test(
  'a restore killed half way leaves no database, and the next one does it whole',
  async () => {
    await grow(40)
    const { path } = await backedUp(clinic, clinic.at('backups'))
    let left = 0
    for (const ms of [600, 0]) {
      const child = startChild('commanding.ts', clinic.elsewhereUrl, 'restore', path)
      await halfWay(child, ms * Math.random(), clinic.at('elsewhere'))
      child.process.kill('SIGKILL')
      await child.ended
      left += unfinished(clinic.at('elsewhere')).length
      if (!existsSync(elsewhereFile())) continue
      // It was faster than the kill: then it is whole.
      expect(await lookedThrough(clinic.elsewhereUrl, ({ reader }) => reader.patientIds())).toHaveLength(3)
      return
    }
    expect(left).toBeGreaterThan(0)
    const child = startChild('commanding.ts', clinic.elsewhereUrl, 'restore', path)
    expect(await child.ended, child.lines.join('\n')).toBe(0)
    expect(child.lines.join('\n')).toContain('Took away what an earlier run had left')
    expect(namesIn(clinic.at('elsewhere'))).toEqual(['lowmark.db'])
    expect(await lookedThrough(clinic.elsewhereUrl, ({ reader }) => reader.patientIds())).toHaveLength(3)
  },
  LONG_MS,
)

const full = canMake('a backup onto a full disk', 'mount')

test.skipIf(full.isImpossible)(
  full.titled('on a full disk there is no backup, nothing of it is left, and it can be made elsewhere at once'),
  async () => {
    await grow(4)
    const { folder, remove } = smallDisk(1024 * 1024)
    try {
      const { recipients } = await keysOf(clinic)
      for (const words of [[], ['--recipient-file', recipients]]) {
        expect(await clinic.run('backup', folder, ...words)).toMatchObject({
          status: 1,
          err: expect.stringMatching(/There is no backup, and nothing of it is left .*The disk is full/),
        })
        expect(namesIn(folder)).toEqual([])
      }
      const { rows } = clinic.store.reader.trailPage({ actor: null, limit: 1, offset: 0 })
      expect(rows[0]?.event).toMatchObject({ action: 'backup-made', outcome: 'failure', reason: 'disk-full' })
      expect(json<BackupSaid>(await clinic.run('backup', clinic.at('backups'), '--json')).rows.patient).toBe(3)
    } finally {
      remove()
    }
  },
  LONG_MS,
)
