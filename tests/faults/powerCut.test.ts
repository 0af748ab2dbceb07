import { execFileSync } from 'node:child_process'
import { copyFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { beforeAll, expect, test, vi } from 'vitest'
import { bundled } from './bundled.ts'
import { untilPrinted } from './child.ts'
import { clinicIn } from './damagedClinic.ts'
import { type Acknowledged, acknowledgedIn, lawHolds } from './law.ts'
import { afterPowerCut, ext4Disk, type Image } from './mounted.ts'
import { canMake } from './needs.ts'
import { seeded } from './seeded.ts'
import { begin, startWaiting, untilReady } from './traced.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

const { isImpossible, titled } = canMake('power cut', 'mount', 'mkfs', 'loop')

let working = ''
beforeAll(async () => {
  working = await bundled('tests/faults/working.ts')
})

/** What is in a copy of the image, which is what the disk held at the moment it was copied: what of the acknowledged is lost. */
function broken(image: string, acknowledged: Acknowledged): Promise<string[]> {
  return afterPowerCut(image, (folder) => lawHolds(`file:${folder}/lowmark.db`, acknowledged))
}

/** Lets a program work on the disk and cuts the power so many times: it stands still while the image is copied, and goes on. */
async function cutPower(disk: Image, cuts: number, how: string): Promise<{ readonly image: string; readonly acknowledged: Acknowledged }[]> {
  const chance = seeded(`power cut ${how}`)
  const url = await clinicIn(disk.folder)
  // What lay there before is on the disk; only the work may be lost.
  execFileSync('sync', ['-f', disk.folder])
  const child = startWaiting([working, url, 'p', '100000', how])
  await untilReady(child)
  begin(child)
  const copies: { image: string; acknowledged: Acknowledged }[] = []
  for (let cut = 0; cut < cuts; cut++) {
    await untilPrinted(child, child.lines.length + 3 + chance(12))
    await pause(chance(20))
    child.process.kill('SIGSTOP')
    await pause(20)
    const image = `${disk.image}-${cut}`
    copyFileSync(disk.image, image)
    // What it had said before it stood still; a line may have been on its way.
    copies.push({ image, acknowledged: acknowledgedIn([...child.lines]) })
    child.process.kill('SIGCONT')
  }
  child.process.kill('SIGKILL')
  await child.ended
  return copies
}

test.skipIf(isImpossible)(
  titled('the power is cut while files are taken in and findings answered: all that was acknowledged is on the disk'),
  async () => {
    const disk = ext4Disk()
    try {
      const copies = await cutPower(disk, 5, 'as it is')
      expect(copies.at(-1)?.acknowledged.files.length).toBeGreaterThan(5)
      for (const { image, acknowledged } of copies) expect(await broken(image, acknowledged)).toEqual([])
    } finally {
      disk.remove()
    }
  },
)

test.skipIf(isImpossible)(titled('the same without waiting for the disk loses something, so this test can fail'), async () => {
  const disk = ext4Disk()
  try {
    const [cut] = await cutPower(disk, 1, 'unsafe')
    if (cut === undefined) throw new Error('the power was not cut')
    const says = await broken(cut.image, cut.acknowledged).catch((error: Error) => [`it does not open: ${error.message}`])
    expect(says.join('\n')).toMatch(/is lost|is there 0 times|is not the one that was told|does not open/)
  } finally {
    disk.remove()
  }
})
