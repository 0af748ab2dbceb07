import { createHash } from 'node:crypto'
import { readdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test, vi } from 'vitest'
import { patientPath } from '../pages/clinic.ts'
import { fileOf } from './clinicWork.ts'
import { lowmark } from './console.ts'
import { clinicIn, ownFolder } from './damagedClinic.ts'
import { type Acknowledged, lawHolds } from './law.ts'
import { smallDisk } from './mounted.ts'
import { canMake } from './needs.ts'
import { act, page, serveClinic, signInOver, upload, withPeople } from './served.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

const { isImpossible, titled } = canMake('disk full', 'mount')
const MIB = 1024 * 1024
/** Where a text has P2, but in the numbers of a build and of an answer: drawn by chance, and long, they have any two characters side by side once in a hundred runs. */
const secondPatientIn = (text: string): string[] => (text.match(/[\w+/=-]*P2[\w+/=-]*/g) ?? []).filter(({ length }) => length < 20)
const now = () => new Date().toISOString()

/** Leaves so many bytes of a disk free; answers how to make room again. */
function fill(folder: string, leave: number, name = 'filler'): () => void {
  const { bavail, bsize } = statfsSync(folder)
  const filler = join(folder, name)
  writeFileSync(filler, Buffer.alloc(Math.max(bavail * bsize - leave, 0)))
  return () => rmSync(filler)
}

test.skipIf(isImpossible)(
  titled('on a full disk pages answer 503 and show nobody, uploads and reviews are refused; with room again the same program goes on'),
  async () => {
    const disk = smallDisk(6 * MIB)
    const url = await clinicIn(disk.folder)
    const key = await withPeople(url)
    const served = await serveClinic(url)
    try {
      const [nurse, quality] = [await signInOver(served, 'navigator'), await signInOver(served, 'quality')]
      expect(secondPatientIn(await (await page(served, nurse, '/list')).text())).not.toEqual([])
      const files: { sha256: string; rows: number }[] = []
      const reviews: { patientId: string; note: string }[] = []
      const review = async (note: string) => {
        const answer = await (
          await act(served, nurse, 'answerFinding', { patientId: 'P1', rule: 'relapse-haemoglobin', key, did: 'seen', note, bringBackOn: '' })
        ).text()
        if (answer.includes('"ok":true')) reviews.push({ patientId: 'P1', note })
        return answer
      }
      const take = async (name: string, rows: number) => {
        const file = fileOf(name, 1, rows)
        const answer = await (await upload(served, nurse, file)).text()
        if (answer.includes('"ok":true')) files.push({ sha256: createHash('sha256').update(file.bytes).digest('hex'), rows })
        return answer
      }
      expect(await take('before', 40)).toContain('"ok":true')
      expect(await review('before it was full')).toContain('"ok":true')
      const makeRoom = fill(disk.folder, 0)
      // The write-ahead log has room of its own that is used again, so the first few may still be taken.
      let last = ''
      for (let n = 0; n < 60 && !last.includes('"kind":"unavailable"'); n++) last = await review(`full ${n}`)
      expect(last).toContain('"kind":"unavailable"')
      for (const [path, who] of [
        ['/list', nurse],
        [patientPath({ databaseUrl: url }, 'P1'), nurse],
        ['/log', quality],
      ] as const) {
        const answer = await page(served, who, path)
        const text = await answer.text()
        expect([path, answer.status]).toEqual([path, 503])
        expect([path, ...['1950-03-12', 'haemoglobin'].filter((word) => text.includes(word)), ...secondPatientIn(text)]).toEqual([path])
      }
      const refused = await take('full', 40)
      expect(refused).toMatch(/"ok":false,"kind":"unavailable","reason":"[^"]*(disk is full|database cannot be written)/)
      makeRoom()
      expect((await page(served, nurse, '/list')).status).toBe(200)
      expect(await take('after', 40)).toContain('"ok":true')
      expect(await review('room again')).toContain('"ok":true')
      // Nothing of what arrived is left lying.
      expect(readdirSync(`${url.slice('file:'.length)}-incoming`)).toEqual([])
      const acknowledged: Acknowledged = { files, reviews }
      expect(files.length).toBe(2)
      expect(await lawHolds(url, acknowledged, now())).toEqual([])
    } finally {
      await served.stop()
      disk.remove()
    }
  },
)

test.skipIf(isImpossible)(
  titled('a file that fills the disk while it is taken in is refused with what to do; with room again the same file is taken whole'),
  async () => {
    const disk = smallDisk(40 * MIB)
    const own = ownFolder()
    try {
      const url = await clinicIn(disk.folder)
      const file = fileOf('large', 1, 5_000)
      const path = join(own.folder, file.name)
      writeFileSync(path, file.bytes)
      const [rows, sha256] = [5_000, createHash('sha256').update(file.bytes).digest('hex')]

      const roomForAll = fill(disk.folder, 2 * MIB)
      const full = await lowmark(url, ['intake', path, '--json'])
      expect([full.status, full.out]).toEqual([1, ''])
      expect(full.err).toContain('the disk is full. What was answered before is kept; make room, then do it again')
      const roomForSome = fill(disk.folder, 0, 'filler2')
      const arriving = await lowmark(url, ['intake', path, '--json'])
      expect([arriving.status, arriving.err]).toEqual([
        1,
        expect.stringContaining('What arrives cannot be kept beside the database: the disk is full.'),
      ])
      roomForSome()
      roomForAll()
      expect(await lawHolds(url, { files: [], reviews: [] })).toEqual([])
      const taken = JSON.parse((await lowmark(url, ['intake', path, '--json'])).out) as {
        files: readonly { rows: number; filed: number; known: number }[]
      }
      expect(taken.files.map(({ rows: all, filed, known }) => [all, filed + known])).toEqual([[rows, rows]])
      expect(await lawHolds(url, { files: [{ sha256, rows }], reviews: [] })).toEqual([])
    } finally {
      disk.remove()
      own.remove()
    }
  },
)
