import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import { folderOf, freshUrl } from '../store/freshStore.ts'
import { csv, patientRow, resultRow } from '../usecases/clinic.ts'
import { json, lowmark } from './terminal.ts'

let url: string
beforeEach(() => {
  url = freshUrl()
})

function beside(name: string, content: string | Uint8Array): string {
  const path = join(folderOf(url), name)
  writeFileSync(path, content)
  return path
}
const profileFile = (profile: unknown) => beside('profile.json', JSON.stringify(profile))
const NORTH = { source: 'North', units: {}, decimalSign: 'comma', dayOrder: 'year-first', timeZone: null, addsPatients: false }

test('a profile is set from a file, shown, and printed as the same file; rows are read by it', async () => {
  await lowmark(url, 'intake', beside('p.csv', csv('p.csv', [patientRow()]).bytes))
  const results = beside('r.csv', csv('r.csv', [resultRow({ value: '14,2' })]).bytes)
  expect(await lowmark(url, 'intake', results, '--source', 'North')).toMatchObject({ status: 3 })
  const path = profileFile({ source: 'North', decimalSign: 'comma' })
  const tried = await lowmark(url, 'source', 'set', path, '--dry-run')
  expect(tried).toMatchObject({ status: 0, out: '1 rows of it wait; 1 of them could be filed. Nothing was saved.\n' })
  expect(json(await lowmark(url, 'source', 'set', path, '--dry-run', '--json'))).toMatchObject({ dryRun: true, waiting: 1, couldBeFiled: 1 })
  expect(json(await lowmark(url, 'source', 'list', '--json'))).toMatchObject({ sources: [{ source: 'North', profile: null, waiting: 1 }] })
  const set = await lowmark(url, 'source', 'set', path, '--reason', 'as its manual says')
  expect(set).toMatchObject({ status: 0, out: expect.stringContaining('Decimal sign: a point -> a comma') })
  expect(json(await lowmark(url, 'source', 'show', 'North', '--file'))).toEqual(NORTH)
  expect(json(await lowmark(url, 'source', 'show', 'North', '--json'))).toMatchObject({
    source: 'North',
    version: 1,
    waiting: 1,
    file: NORTH,
    versions: [{ version: 1, reason: 'as its manual says' }],
  })
  const shown = await lowmark(url, 'source', 'show', 'North')
  expect(shown.out).toContain('"12,5" is read as 12.5')
  expect(shown.out).toContain('as its manual says')
  expect((await lowmark(url, 'source', 'list')).out).toMatch(/North +1 +1 +1 +Decimal sign: a comma/)
  expect(json(await lowmark(url, 'intake', results, '--source', 'North', '--json'))).toMatchObject({ files: [{ filed: 1, patientsAdded: 0 }] })
  // What it printed is set again: nothing changes.
  expect(await lowmark(url, 'source', 'set', profileFile(NORTH), '--reason', 'again')).toMatchObject({
    status: 1,
    err: expect.stringContaining('Nothing is changed'),
  })
})

test('a wrong file names every field; nothing is kept', async () => {
  const wrong = { source: 'North', decimalSign: ';', units: { '718-7': '' }, zone: 'UTC' }
  const answer = await lowmark(url, 'source', 'set', profileFile(wrong), '--reason', 'a test')
  expect(answer).toMatchObject({ status: 1, out: '' })
  for (const field of ['decimalSign is neither point nor comma.', 'units.718-7 needs a unit', 'zone is nothing a profile says.']) {
    expect(answer.err).toContain(field)
  }
  expect(json(await lowmark(url, 'source', 'list', '--json'))).toEqual({ sources: [] })
})

test('wrong words, no file, no JSON', async () => {
  expect((await lowmark(url, 'source', 'set', profileFile(NORTH))).err).toContain('--reason TEXT is missing')
  expect(await lowmark(url, 'source', 'set', 'nowhere.json', '--reason', 'a test')).toMatchObject({
    status: 1,
    err: expect.stringContaining('there is no such file'),
  })
  expect((await lowmark(url, 'source', 'set', beside('x.json', '{'), '--reason', 'a test')).err).toContain('is no JSON')
  expect(await lowmark(url, 'source', 'show', ' ')).toMatchObject({ status: 1 })
  expect((await lowmark(url, 'source', 'show', 'nobody yet')).out).toContain('no profile, so nothing is assumed')
})
