import { createHash } from 'node:crypto'
import { readdirSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { expect, test, vi } from 'vitest'
import { fileOf } from './clinicWork.ts'
import { clinicIn, ownFolder } from './damagedClinic.ts'
import { lawHolds } from './law.ts'
import { seeded } from './seeded.ts'
import { act, serveClinic, signInOver, upload, withPeople } from './served.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

const [MANY, FEW] = [120, 20]

/** Resolves when no process apart takes anything in any more: one whose server was killed goes on to its end. */
async function untilNothingIsTaken(url: string, now: () => string): Promise<string[]> {
  for (let tries = 0; ; tries++) {
    const broken = await lawHolds(url, { files: [], reviews: [] }, now())
    if (broken.length === 0 || tries === 10) return broken
    await pause(300)
  }
}

test('the server killed while files arrive and findings are answered: what was answered is there, nothing is by half, and the next start goes on', async () => {
  const chance = seeded('kill -9 of the server')
  const now = () => new Date().toISOString()
  const { folder, remove } = ownFolder()
  const url = await clinicIn(folder)
  const key = await withPeople(url)
  const files: { sha256: string; rows: number }[] = []
  const reviews: { patientId: string; note: string }[] = []
  for (let kills = 0; kills < 2; kills++) {
    const served = await serveClinic(url)
    // What arrived when the server before was killed is taken away by now.
    expect(readdirSync(folder).includes('lowmark.db-incoming') ? readdirSync(`${folder}/lowmark.db-incoming`) : []).toEqual([])
    const nurse = await signInOver(served, 'navigator')
    let [going, done] = [true, 0]
    const answeredBefore = reviews.length
    const uploading = async () => {
      for (let n = 0; going; n++) {
        // By turns one that has a process of its own, and one the server takes in itself.
        const rows = n % 2 === 0 ? MANY : FEW
        const file = fileOf(`s${kills}-`, n, rows)
        const answer = await (await upload(served, nurse, file)).text()
        if (!answer.includes('"ok":true')) throw new Error(answer)
        files.push({ sha256: createHash('sha256').update(file.bytes).digest('hex'), rows })
        done += 1
      }
    }
    const answering = async () => {
      for (let n = 0; going; n++) {
        const note = `answered ${kills} ${n}`
        const fields = { patientId: 'P1', rule: 'relapse-haemoglobin', key, did: 'seen', note, bringBackOn: '' }
        const answer = await (await act(served, nurse, 'answerFinding', fields)).text()
        if (!answer.includes('"ok":true')) throw new Error(answer)
        reviews.push({ patientId: 'P1', note })
        done += 1
      }
    }
    // The connection breaks with the server: whatever was not answered to the end is not acknowledged.
    const clients = Promise.allSettled([uploading(), answering()])
    const enough = 4 + chance(6)
    // An answer takes longer than a few rows: of both there have to be some.
    while (done < enough || reviews.length < answeredBefore + 2) await pause(5)
    await pause(chance(60))
    going = false
    served.child.process.kill('SIGKILL')
    await served.child.ended
    await clients
    expect(await untilNothingIsTaken(url, now)).toEqual([])
    expect(await lawHolds(url, { files, reviews }, now())).toEqual([])
  }
  expect(reviews.length).toBeGreaterThan(3)
  remove()
})
