import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, test, vi } from 'vitest'
import { bundled } from './bundled.ts'
import { clinicIn, ownFolder } from './damagedClinic.ts'
import { acknowledgedIn, lawHolds } from './law.ts'
import { canMake } from './needs.ts'
import { callsOf, UnkindDisk } from './replayed.ts'
import { seeded } from './seeded.ts'
import { inPairs, startWaiting, traceFromNow } from './traced.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

const { isImpossible, titled } = canMake('I/O errors', 'strace')

let working = ''
beforeAll(async () => {
  working = await bundled('tests/faults/working.ts')
})

/** What of the acknowledged is lost when the power of this disk is cut now. */
async function afterCut(disk: UnkindDisk, said: readonly string[]): Promise<string[]> {
  const { folder, remove } = ownFolder()
  disk.cutPower(folder)
  const says = await lawHolds(`file:${folder}/lowmark.db`, acknowledgedIn(said))
  remove()
  return says
}

const failures = (lines: readonly string[]) => lines.filter((line) => line.startsWith('failed '))

test.skipIf(isImpossible)(
  titled('a write or sync that fails is not acknowledged; the same program goes on, and nothing acknowledged is lost'),
  async () => {
    const faults = [
      ['fsync:error=EIO:when=1+4', 'SQLITE_IOERR_FSYNC'],
      ['fsync:error=EIO:when=2+3', 'SQLITE_IOERR_FSYNC'],
      ['pwrite64:error=EIO:when=1+150', 'SQLITE_IOERR_WRITE'],
      ['pwrite64:error=EIO:when=30+171', 'SQLITE_IOERR_WRITE'],
      ['pwrite64:error=ENOSPC:when=5+160', 'SQLITE_FULL'],
      ['pwrite64:error=ENOSPC:when=40+123', 'SQLITE_FULL'],
    ] as const
    await inPairs(faults, async ([inject, code]) => {
      const { folder, remove } = ownFolder()
      const url = await clinicIn(folder)
      const child = startWaiting([working, url, 'w', '12', 'again'])
      await traceFromNow(child, { calls: 'pwrite64,fsync', inject })
      expect([inject, await child.ended]).toEqual([inject, 0])
      expect(failures(child.lines).length).toBeGreaterThan(1)
      expect(failures(child.lines).filter((line) => !line.startsWith(`failed SqliteError ${code} `))).toEqual([])
      const acknowledged = acknowledgedIn(child.lines)
      expect(acknowledged.files.length + acknowledged.reviews.length).toBeGreaterThan(3)
      expect([inject, await lawHolds(url, acknowledged)]).toEqual([inject, []])
      remove()
    })
  },
)

test.skipIf(isImpossible)(
  titled('what a failed sync forgot is not thought durable later: the power cut after any later acknowledgement loses nothing'),
  async () => {
    const chance = seeded('a sync that forgets')
    const { folder, remove } = ownFolder()
    const url = await clinicIn(folder)
    const path = url.slice('file:'.length)
    const log = join(folder, 'calls')
    const child = startWaiting([working, url, 'w', '10', 'again,checkpoints'])
    const files = new Map<string, Buffer>()
    await traceFromNow(child, {
      calls: 'pwrite64,fsync,write',
      inject: 'fsync:error=EIO:when=2+4',
      log,
      more: ['-xx', '-s', '70000'],
      before: () => {
        for (const name of [path, `${path}-wal`]) files.set(name, readFileSync(name))
      },
    })
    expect(await child.ended).toBe(0)
    expect(failures(child.lines).length).toBeGreaterThan(0)

    const disk = new UnkindDisk(files, () => chance(2) === 0)
    const said: string[] = []
    let [cuts, mainSyncs] = [0, 0]
    for (const { line, result } of callsOf(readFileSync(log, 'utf8'))) {
      const word = disk.do(line, result)
      if (line.includes('fsync(') && !line.includes('2d\\x77\\x61\\x6c>')) mainSyncs += 1
      if (word === null) continue
      said.push(word)
      if (!/^(file|review) /.test(word)) continue
      expect(await afterCut(disk, said)).toEqual([])
      cuts += 1
    }
    expect(cuts).toBeGreaterThan(4)
    // A disk that lies about every sync loses something, so this test can fail.
    const liar = new UnkindDisk(files, () => false)
    for (const { line } of callsOf(readFileSync(log, 'utf8'))) liar.do(line, line.includes('fsync(') ? '-1 EIO' : '')
    expect((await afterCut(liar, said)).join('\n')).toContain('is lost')
    // The write-ahead log was moved into the file meanwhile, and that failed at times too.
    expect(mainSyncs).toBeGreaterThan(2)
    remove()
  },
)
