import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { addDays, day } from '../../lib/time/index.ts'
import { folderOf, freshUrl } from '../store/freshStore.ts'
import { withoutGuards } from '../store/guards.ts'
import { fromOutside } from '../store/outside.ts'
import { csv, patientRow, type Row, resultRow } from '../usecases/clinic.ts'
import { listDocument, patientDocument } from './schema.ts'
import { json, lowmark, npmRunLowmark, type Ran } from './terminal.ts'

/** Writes a CSV file beside a database and answers its path. */
function fileBeside(url: string, name: string, rows: readonly Row[]): string {
  const path = join(folderOf(url), name)
  writeFileSync(path, csv(name, rows).bytes)
  return path
}

describe('the invented cohort', () => {
  const url = freshUrl()
  let filled: Ran
  beforeAll(async () => {
    filled = await npmRunLowmark(url, 'demo', '--patients', '60', '--years', '2', '--json')
  })

  test('demo fills an empty database and answers one JSON document', () => {
    expect(filled.status).toBe(0)
    expect(json(filled)).toMatchObject({ patients: 60, rows: expect.any(Number) })
  })

  test('demo refuses a database that holds anything', async () => {
    expect(await lowmark(url, 'demo')).toMatchObject({ status: 1, out: '', err: expect.stringContaining('not empty') })
    const withAccount = freshUrl()
    await lowmark(withAccount, 'account', 'add', '--role', 'administrator', '--name', 'Sam')
    expect((await lowmark(withAccount, 'demo', '--patients', '5', '--years', '1')).status).toBe(1)
    expect(json(await lowmark(withAccount, 'list', '--json'))).toMatchObject({ patients: [] })
  })

  test('list --json: valid, every followed patient once, positions 1 to n, the same bytes twice', async () => {
    const [first, again] = [await npmRunLowmark(url, 'list', '--json'), await lowmark(url, 'list', '--json')]
    expect(first.status).toBe(0)
    const { patients } = listDocument.parse(json(first))
    expect(again.out).toBe(first.out)
    expect(patients.map(({ position }) => position)).toEqual(patients.map((_, index) => index + 1))
    const db = fromOutside(url, { reading: true })
    const followed = db.values("SELECT id FROM patient WHERE status = 'followed' ORDER BY id")
    db.close()
    expect(patients.map(({ patientId }) => patientId).toSorted()).toEqual(followed)
  })

  test('list as a table has a line for every patient, and the caution on standard error', async () => {
    const table = await lowmark(url, 'list')
    const { patients } = listDocument.parse(json(await lowmark(url, 'list', '--json')))
    expect(table.out.trimEnd().split('\n')).toHaveLength(patients.length + 1)
    expect(table.err).toContain('does not diagnose')
  })

  test('list --as-of looks back: nothing later counts', async () => {
    const today = listDocument.parse(json(await lowmark(url, 'list', '--json'))).asOf
    const earlier = addDays(day(today), -14)
    const { asOf, patients } = listDocument.parse(json(await lowmark(url, 'list', '--as-of', earlier, '--json')))
    expect(asOf).toBe(earlier)
    const days = patients.flatMap(({ findings }) => findings.flatMap(({ since, evidence }) => [since, ...evidence.map((one) => one.collectedOn)]))
    expect(days.filter((on) => on > asOf)).toEqual([])
    expect(days.length).toBeGreaterThan(0)
  })

  test('patient --json: valid for everybody, and as the list has it', async () => {
    const { patients } = listDocument.parse(json(await lowmark(url, 'list', '--json')))
    for (const { patientId, findings, phase } of patients) {
      const one = patientDocument.parse(json(await lowmark(url, 'patient', patientId, '--json')))
      expect(one).toMatchObject({ patientId, phase, findings })
    }
  })

  test('patient: a page of text, or why not', async () => {
    expect(await lowmark(url, 'patient', 'P-0001')).toMatchObject({ status: 0, out: expect.stringContaining('due tests') })
    expect(await lowmark(url, 'patient', 'P-9999')).toMatchObject({ status: 1, out: '', err: expect.stringContaining('"P-9999"') })
  })

  test('recheck finds no difference, and says so when there is one', async () => {
    expect(json(await lowmark(url, 'recheck', '--json'))).toEqual({
      patients: 60,
      differences: [],
      stored: { files: 5, decisions: 6, unfinished: [], faults: [] },
    })
    expect(await lowmark(url, 'recheck')).toMatchObject({
      status: 0,
      out: expect.stringContaining('60 patients evaluated afresh, 0 differ from what is stored.\n'),
    })
    const db = fromOutside(url)
    db.exec("UPDATE standing SET state_rank = 9 - state_rank WHERE patient_id = 'P-0002'")
    db.close()
    const found = await lowmark(url, 'recheck', '--json')
    expect(found.status).toBe(1)
    expect(json(found)).toMatchObject({ differences: [{ patientId: 'P-0002', says: 'differs in stateRank' }] })
  })

  test('held shows the rows the cohort holds on purpose', async () => {
    const { held } = json<{ held: { heldId: number; reason: string }[] }>(await lowmark(url, 'held', '--json'))
    expect(held.length).toBeGreaterThan(0)
    expect((await lowmark(url, 'held')).out.trimEnd().split('\n')).toHaveLength(held.length + 1)
  })

  test('log verify is clean, log head names the last row; a forged row is named', async () => {
    const clean = await lowmark(url, 'log', 'verify', '--json')
    expect([clean.status, json(clean)]).toMatchObject([0, { ok: true, firstBad: null }])
    const head = json<{ sequence: number; hash: string }>(await lowmark(url, 'log', 'head', '--json'))
    expect((await lowmark(url, 'log', 'head')).out).toBe(`${head.sequence} ${head.hash}\n`)
    const db = fromOutside(url)
    const forge = () => db.run("UPDATE trail SET actor = 'somebody else' WHERE sequence = 2")
    expect(forge).toThrow('append-only')
    withoutGuards(db, forge)
    db.close()
    const forged = await lowmark(url, 'log', 'verify', '--json')
    expect([forged.status, json(forged)]).toMatchObject([1, { ok: false, firstBad: 2 }])
    expect((await lowmark(url, 'log', 'verify')).out).toContain('from row 2 on')
  })
})

describe('files', () => {
  let url: string
  let patients: string
  beforeEach(async () => {
    url = freshUrl()
    patients = fileBeside(url, 'patients.csv', [patientRow()])
  })

  test('intake: exit 0 when every row is filed or known, with sha256 and counts', async () => {
    const results = fileBeside(url, 'results.csv', [resultRow()])
    const ran = await lowmark(url, 'intake', results, patients, '--source', 'North', '--json')
    expect(ran.status).toBe(0)
    expect(json(ran)).toMatchObject({
      dryRun: false,
      files: [
        { file: 'patients.csv', sha256: expect.stringMatching(/^[0-9a-f]{64}$/), rows: 1, filed: 1, problems: [] },
        { file: 'results.csv', rows: 1, filed: 1, held: 0 },
      ],
    })
    expect((await lowmark(url, 'intake', results)).out).toContain('1 rows = 0 filed + 1 known + 0 corrected + 0 held + 0 refused')
  })

  test('intake: exit 3 when a row is held or refused, each with line, reason and sentence', async () => {
    const results = fileBeside(url, 'results.csv', [resultRow({ unit: '' }), resultRow({ collected_at: '2026-02-30' })])
    const ran = await lowmark(url, 'intake', patients, results)
    expect(ran.status).toBe(3)
    expect(ran.out).toContain('row 2 held (unit-missing): The unit is empty')
    expect(ran.out).toContain('row 3 refused (bad-date): ')
  })

  test('intake: exit 3 when one of several files is refused, 1 when all are', async () => {
    const bad = fileBeside(url, 'bad.csv', [{ nonsense: '1' }])
    const all = await lowmark(url, 'intake', bad, '--json')
    expect([all.status, json(all)]).toMatchObject([1, { files: [{ file: 'bad.csv', fileRefused: { reason: 'unknown-header' } }] }])
    expect((await lowmark(url, 'intake', bad, patients)).status).toBe(3)
  })

  test('intake: a file that is not there is said, and nothing of the others is taken', async () => {
    expect(await lowmark(url, 'intake', patients, 'nowhere.csv')).toEqual({
      status: 1,
      out: '',
      err: 'Nothing was done: "nowhere.csv" cannot be read: there is no such file.\n',
    })
    expect(await lowmark(url, 'intake', '.')).toMatchObject({ status: 1, err: 'Nothing was done: "." cannot be read: it is a directory.\n' })
    expect(json(await lowmark(url, 'list', '--json'))).toMatchObject({ patients: [] })
  })

  test('intake --dry-run keeps nothing', async () => {
    expect(json(await lowmark(url, 'intake', patients, '--dry-run', '--json'))).toMatchObject({ dryRun: true, files: [{ filed: 1 }] })
    expect(json(await lowmark(url, 'list', '--json'))).toMatchObject({ patients: [] })
  })

  test('held resolve files or refuses, with a reason; what cannot be filed stays', async () => {
    await lowmark(url, 'intake', fileBeside(url, 'results.csv', [resultRow(), resultRow({ accession: 'A2', unit: '' })]))
    await lowmark(url, 'intake', patients)
    const resolve = (...words: string[]) => lowmark(url, 'held', 'resolve', ...words, '--reason', 'asked the laboratory')
    expect(await resolve('1', '--file', '--json')).toMatchObject({ status: 0 })
    expect(await resolve('2', '--file')).toMatchObject({ status: 1, out: '', err: expect.stringContaining('Row 2 stays as it is.') })
    expect(await resolve('2', '--refuse')).toMatchObject({ status: 0, out: 'Row 3 of results.csv was refused; nothing of it is stored.\n' })
    expect(await resolve('7', '--file')).toMatchObject({ status: 1, err: expect.stringContaining('No held row has the number 7') })
    expect(json(await lowmark(url, 'held', '--json'))).toEqual({ held: [] })
  })
})

describe('accounts', () => {
  test('account add prints a one-time code, never takes a password; account disable ends it', async () => {
    const url = freshUrl()
    const added = await lowmark(url, 'account', 'add', '--role', 'navigator', '--name', 'Robin', '--json')
    expect([added.status, json(added)]).toMatchObject([0, { name: 'Robin', role: 'navigator', code: expect.stringMatching(/.{8}/) }])
    expect(await lowmark(url, 'account', 'add', '--role', 'navigator', '--name', 'Kim', '--password', 'x')).toMatchObject({ status: 2, out: '' })
    expect(await lowmark(url, 'account', 'disable', 'Robin')).toMatchObject({ status: 0, out: expect.stringContaining('Robin is disabled') })
    expect(await lowmark(url, 'account', 'disable', 'Kim')).toMatchObject({ status: 1, out: '' })
  })

  test('account reset-factor takes a second factor away, and says where there is none', async () => {
    const url = freshUrl()
    await lowmark(url, 'account', 'add', '--role', 'navigator', '--name', 'Robin')
    const none = await lowmark(url, 'account', 'reset-factor', 'Robin')
    expect(none).toMatchObject({ status: 1, out: '', err: expect.stringContaining('Robin has no second factor') })
    const db = fromOutside(url)
    db.exec("INSERT INTO second_factor (account_id, sealed, changed_at, last_step) VALUES (1, 'v1.a.b.c', '2026-11-25T10:00:00.000Z', 1)")
    const reset = await lowmark(url, 'account', 'reset-factor', 'robin')
    expect(reset).toMatchObject({ status: 0, out: expect.stringContaining('no second factor any more') })
    expect(db.values('SELECT sealed FROM second_factor')).toEqual([null])
    expect(db.values('SELECT action FROM trail ORDER BY sequence DESC LIMIT 2')).toEqual(['sessions-ended', 'second-factor-taken-away'])
    db.close()
    expect(await lowmark(url, 'account', 'reset-factor')).toMatchObject({ status: 2 })
  })
})

describe('wrong words: exit 2, how to say it on standard error, no database made', () => {
  test.each([
    [],
    ['lists'],
    ['log'],
    ['log', 'verify', 'twice'],
    ['list', '--as-of', '30.11.2026'],
    ['list', '--as-of', '2026-02-30'],
    ['list', '--colour'],
    ['patient'],
    ['patient', 'A', 'B'],
    ['intake'],
    ['intake', '--json'],
    ['held', 'resolve', '1', '--file'],
    ['held', 'resolve', '1', '--file', '--refuse', '--reason', 'x'],
    ['held', 'resolve', 'one', '--file', '--reason', 'x'],
    ['account', 'add', '--role', 'king', '--name', 'Kim'],
    ['account', 'add', '--role', 'navigator'],
    ['demo', '--patients', '0'],
    ['demo', '--patients', '1e3'],
    ['demo', '--seed', '-1'],
    ['patient', 'A', '--as-of', 'today'],
    ['__proto__'],
  ])('%s %s %s', async (...words: string[]) => {
    const ran = await lowmark('file:./package.json/never-made.db', ...words)
    expect([ran.status, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(/Use: |Words Lowmark knows:/)
  })
})

test('a database that cannot be opened: exit 1 with the reason', async () => {
  expect(await lowmark('file:./package.json/nowhere.db', 'list')).toMatchObject({
    status: 1,
    out: '',
    err: expect.stringContaining('Nothing was done: '),
  })
  expect(await lowmark('mysql://nowhere', 'list')).toMatchObject({ status: 1, err: expect.stringContaining('does not name a file') })
  expect(await lowmark('postgres://nowhere', 'list')).toMatchObject({ status: 1, err: expect.stringContaining('names a server and no database') })
})
