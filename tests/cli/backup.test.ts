import { existsSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { sha256Of } from '../../lib/usecases/backup/digest.ts'
import { backedUp, copyOf, flipBit, keysOf, namesIn, PATIENTS, type SmallClinic, smallClinic } from './backups.ts'
import { json } from './terminal.ts'

let clinic: SmallClinic
beforeEach(async () => {
  clinic = await smallClinic()
})
afterEach(() => clinic.dispose())

const mode = (path: string): string => (statSync(path).mode & 0o777).toString(8)
const ago = (path: string, days: number): void => utimesSync(path, Date.now() / 1000 - days * 86_400, Date.now() / 1000 - days * 86_400)
const lastEvents = (count: number) =>
  clinic.store.reader
    .trailPage({ actor: null, limit: count, offset: 0 })
    .rows.toReversed()
    .map(({ event }) => event)

describe('backup FILE', () => {
  test('is one file that any SQLite opens, its manifest beside it, both for their owner alone, and nothing else', async () => {
    const file = clinic.at('backups', 'monday.db')
    const { path, rows, sha256, bytes, logHead, encrypted } = await backedUp(clinic, file)
    expect(path).toBe(file)
    expect(namesIn(clinic.at('backups'))).toEqual(['monday.db', 'monday.db.json'])
    expect([mode(file), mode(`${file}.json`)]).toEqual(['600', '600'])
    expect([await sha256Of(file), statSync(file).size, encrypted]).toEqual([sha256, bytes, false])
    const copy = new Database(file, { readonly: true })
    expect(copy.pragma('integrity_check', { simple: true })).toBe('ok')
    expect(copy.prepare('SELECT count(*) AS n FROM patient').get()).toEqual({ n: PATIENTS.length })
    expect(copy.prepare('SELECT sequence, hash FROM trail ORDER BY sequence DESC LIMIT 1').get()).toEqual(logHead)
    expect(copy.prepare('SELECT action FROM trail WHERE sequence = ?').get(logHead.sequence)).toEqual({ action: 'backup-begun' })
    expect(rows).toMatchObject({ patient: 3, result: 3, account: 2, session: 1, trail: logHead.sequence })
    copy.close()
    expect(JSON.parse(readFileSync(`${file}.json`, 'utf8'))).toMatchObject({ what: 'lowmark-backup', file: 'monday.db', sha256, rows })
  })

  test('enters that it was begun before, and that it was made after', async () => {
    const { sha256, bytes, logHead } = await backedUp(clinic, clinic.at('backups', 'a.db'))
    expect(lastEvents(2)).toEqual([
      { action: 'backup-begun', encrypted: false },
      { action: 'backup-made', outcome: 'success', reason: null, sha256, bytes, headSequence: logHead.sequence, removed: 0 },
    ])
  })

  test('overwrites nothing, and a mistyped folder is noticed', async () => {
    const file = clinic.at('backups', 'mine.txt')
    writeFileSync(file, 'mine')
    const before = clinic.store.reader.trailHead()
    expect(await clinic.run('backup', file)).toMatchObject({ status: 1, err: expect.stringContaining('never overwrites anything') })
    expect(readFileSync(file, 'utf8')).toBe('mine')
    expect(await clinic.run('backup', `${clinic.at('no-such')}/`)).toMatchObject({ status: 1, err: expect.stringContaining('is not there') })
    expect(await clinic.run('backup', clinic.at('no-such', 'a.db'))).toMatchObject({ status: 1, err: expect.stringContaining('is not there') })
    expect(await clinic.run('backup', clinic.at('a.db'), '--keep', '2')).toMatchObject({ status: 1, err: expect.stringContaining('needs a folder') })
    expect(clinic.store.reader.trailHead()).toEqual(before)
  })

  test('a damaged database gives no backup, and the log says so', async () => {
    const outside = new Database(clinic.url.slice('file:'.length))
    outside.exec(`DROP TRIGGER trail_refuses_update; UPDATE trail SET actor = 'somebody' WHERE sequence = 3`)
    outside.close()
    expect(await clinic.run('backup', clinic.at('backups'))).toMatchObject({
      status: 1,
      err: expect.stringMatching(/its log does not fit from row 3 on.*keep every earlier backup/),
    })
    expect(namesIn(clinic.at('backups'))).toEqual([])
    expect(lastEvents(1)).toMatchObject([{ action: 'backup-made', outcome: 'failure', reason: 'not-whole' }])
  })
})

describe('backup DIRECTORY --keep N', () => {
  async function several(count: number): Promise<string[]> {
    const made: string[] = []
    for (let n = 0; n < count; n++) {
      const { path } = await backedUp(clinic, clinic.at('backups'))
      // The names differ by seconds: an older one is made by giving it its older name, in the manifest too.
      const older = path.replace(/lowmark-\d{8}/, `lowmark-202611${String(n + 10)}`)
      const manifest = readFileSync(`${path}.json`, 'utf8').replace(/lowmark-\d{8}/, `lowmark-202611${String(n + 10)}`)
      copyOf(path, older)
      writeFileSync(`${older}.json`, manifest)
      for (const gone of [path, `${path}.json`]) rmSync(gone)
      made.push(older)
    }
    return made
  }

  test('keeps the last N of this database, and touches nothing else', async () => {
    const [first = '', second = '', third = ''] = await several(3)
    const other = await smallClinic()
    const { path: ofAnother } = await backedUp(other, clinic.at('backups', 'lowmark-20200101T000000Z.db'))
    await other.dispose()
    const foreign = ['lowmark-20190101T000000Z.db', 'notes.txt', 'lowmark-20190102T000000Z.db.json'].map((name) => clinic.at('backups', name))
    for (const path of foreign) writeFileSync(path, 'not ours')
    const byHand = copyOf(first, clinic.at('backups', 'lowmark-20190103T000000Z.db'))
    const { path, removed } = await backedUp(clinic, clinic.at('backups'), '--keep', '2')
    expect(removed).toEqual([first, second])
    expect([first, `${first}.json`, second].filter(existsSync)).toEqual([])
    expect([third, path, ofAnother, ...foreign, byHand].filter((one) => !existsSync(one))).toEqual([])
    expect(lastEvents(1)).toMatchObject([{ action: 'backup-made', removed: 2 }])
  })

  test('one that was changed since is named, is not counted and is not removed', async () => {
    const [first = '', second = ''] = await several(2)
    flipBit(second, 5000)
    const ran = await clinic.run('backup', clinic.at('backups'), '--keep', '2', '--json')
    expect(ran).toMatchObject({ status: 3, err: expect.stringContaining(`${second} is no longer what was verified`) })
    expect(json<{ removed: string[] }>(ran).removed).toEqual([])
    expect([first, second].filter((one) => !existsSync(one))).toEqual([])
  })
})

describe('what was ended half way', () => {
  test('is named and taken away by the next backup, unless somebody may still need it', async () => {
    const folder = clinic.at('backups')
    const [host = ''] = [
      /\.([A-Za-z0-9-]+)\.\d+\.[0-9a-f]{8}\.lowmark-part$/.exec((await import('../../lib/usecases/backup/parts.ts')).beginPart(clinic.at('x')))?.[1],
    ]
    const dead = `${folder}/.a.db.${host}.4194304.00000000.lowmark-part`
    const alive = `${folder}/.a.db.${host}.${process.ppid}.00000000.lowmark-part`
    const fresh = `${folder}/.a.db.another-machine.7.00000000.lowmark-part`
    const old = `${folder}/.b.db.another-machine.7.00000000.lowmark-part`
    const plain = `${dirname(clinic.url.slice('file:'.length))}/.lowmark.db.${host}.4194304.00000000.lowmark-part`
    for (const path of [dead, alive, fresh, old, plain]) writeFileSync(path, 'half')
    ago(old, 2)
    const { leftovers } = await backedUp(clinic, folder)
    expect(leftovers.toSorted()).toEqual([dead, old, plain].toSorted())
    expect([dead, old, plain].filter(existsSync)).toEqual([])
    expect([alive, fresh].filter((one) => !existsSync(one))).toEqual([])
  })
})

describe('backup verify', () => {
  test('finds a backup whole', async () => {
    const { path } = await backedUp(clinic, clinic.at('backups'))
    expect(await clinic.elsewhere('backup', 'verify', path)).toMatchObject({
      status: 0,
      out: expect.stringMatching(/^Whole: .* and the log fits\.\n$/),
    })
    expect(namesIn(clinic.at('elsewhere'))).toEqual([])
  })

  test.each([
    ['a bit turned over in a row', (path: string) => flipBit(path, -3000), 'cut off or changed since'],
    ['a bit turned over in the head', (path: string) => flipBit(path, 40), 'cut off or changed since'],
    ['its tail cut off', (path: string) => writeFileSync(path, readFileSync(path).subarray(0, -4096)), 'cut off or changed since'],
    ['no byte left', (path: string) => writeFileSync(path, ''), 'is no backup of Lowmark'],
    ['another file under its name', (path: string) => writeFileSync(path, 'patient_id,value\n'), 'is no backup of Lowmark'],
    ['its manifest gone', (path: string) => rmSync(`${path}.json`), 'is missing'],
    ['another manifest', (path: string) => writeFileSync(`${path}.json`, '{}'), 'is not the manifest of a backup'],
  ])('refuses one with %s', async (_, spoil, says) => {
    const { path } = await backedUp(clinic, clinic.at('backups'))
    spoil(path)
    expect(await clinic.run('backup', 'verify', path)).toMatchObject({ status: 1, out: '', err: expect.stringContaining(says) })
  })

  test('without its manifest, where one says so, it goes by what SQLite finds', async () => {
    const { path } = await backedUp(clinic, clinic.at('backups'))
    rmSync(`${path}.json`)
    expect(await clinic.run('backup', 'verify', path, '--without-manifest')).toMatchObject({
      status: 0,
      out: expect.stringContaining('may not be noticed'),
    })
    writeFileSync(path, readFileSync(path).subarray(0, -4096))
    expect(await clinic.run('backup', 'verify', path, '--without-manifest')).toMatchObject({
      status: 1,
      err: expect.stringContaining('is no whole backup'),
    })
    const another = clinic.at('another.db')
    new Database(another).exec('CREATE TABLE patient (id TEXT)').close()
    expect(await clinic.run('backup', 'verify', another, '--without-manifest')).toMatchObject({
      status: 1,
      err: expect.stringContaining('a database of another program'),
    })
  })
})

describe('an encrypted backup', () => {
  test('leaves nothing that can be read: neither the file, nor a copy beside the database', async () => {
    const { recipients, identity } = await keysOf(clinic)
    expect(mode(identity)).toBe('600')
    const { path, sha256, databaseSha256, encrypted } = await backedUp(clinic, clinic.at('backups'), '--recipient-file', recipients)
    expect([path.endsWith('.db.age'), encrypted, await sha256Of(path)]).toEqual([true, true, sha256])
    expect(sha256).not.toBe(databaseSha256)
    expect(readFileSync(path).includes('patient_id')).toBe(false)
    expect(namesIn(dirname(clinic.url.slice('file:'.length))).filter((name) => name.includes('part'))).toEqual([])
    expect(mode(path)).toBe('600')
  })

  test('is checked by its bytes without the identity, and inside with it', async () => {
    const { recipients, identity } = await keysOf(clinic)
    const { path } = await backedUp(clinic, clinic.at('backups'), '--recipient-file', recipients)
    expect(await clinic.run('backup', 'verify', path)).toMatchObject({ status: 0, out: expect.stringContaining('It was not opened') })
    expect(await clinic.run('backup', 'verify', path, '--identity-file', identity)).toMatchObject({
      status: 0,
      out: expect.stringContaining('Whole:'),
    })
    flipBit(path, -100)
    for (const words of [[], ['--identity-file', identity]])
      expect(await clinic.run('backup', 'verify', path, ...words)).toMatchObject({ status: 1, err: expect.stringContaining('changed') })
  })

  test('needs a file of recipients: an identity is refused, and stands in no message', async () => {
    const { identity } = await keysOf(clinic)
    const ran = await clinic.run('backup', clinic.at('backups'), '--recipient-file', identity)
    expect(ran).toMatchObject({ status: 1, err: expect.stringContaining('is no file of recipients') })
    expect(ran.err).not.toContain('AGE-SECRET-KEY')
    const mistyped = clinic.at('mistyped')
    writeFileSync(mistyped, 'age1t7rxyev2z3rw82stdlrrepyc39nvn86l5078zqkf5uasdy86jp6svpy7pq\n')
    expect(await clinic.run('backup', clinic.at('backups'), '--recipient-file', mistyped)).toMatchObject({ status: 1 })
    expect(namesIn(clinic.at('backups'))).toEqual([])
  })

  test('a key is never overwritten', async () => {
    const { identity } = await keysOf(clinic)
    const before = readFileSync(identity, 'utf8')
    expect(await clinic.run('backup', 'key', identity)).toMatchObject({ status: 1, err: expect.stringContaining('never overwritten') })
    expect(readFileSync(identity, 'utf8')).toBe(before)
  })
})
