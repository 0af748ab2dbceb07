import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { folderOf, freshUrl } from '../store/freshStore.ts'
import { csv, patientRow, type Row, resultRow } from '../usecases/clinic.ts'
import { json, lowmark } from './terminal.ts'

function fileBeside(url: string, name: string, rows: readonly Row[]): string {
  const path = join(folderOf(url), name)
  writeFileSync(path, csv(name, rows).bytes)
  return path
}

const local = (changes: Row = {}) => resultRow({ code: 'HB', value: '10.6', unit: 'g/dL', ...changes })
const why = ['--reason', 'asked the laboratory'] as const

test('held show, resolve --code --alike --remember, mapping list and revoke: exit 3 where a row stays, 1 where nothing is done', async () => {
  const url = freshUrl()
  const rows = [local(), local({ accession: 'A2', value: '10,6' }), local({ accession: 'A3' })]
  await lowmark(url, 'intake', fileBeside(url, 'p.csv', [patientRow()]))
  await lowmark(url, 'intake', fileBeside(url, 'r.csv', rows), '--source', 'north')
  const shown = await lowmark(url, 'held', 'show', '1')
  expect([shown.status, shown.out]).toEqual([0, expect.stringMatching(/code: HB[\s\S]*analyte: cannot be read[\s\S]*Alike: 3 of 1 patients\./)])
  expect(await lowmark(url, 'held', 'resolve', '1', '--code', '2464-6', ...why)).toMatchObject({ status: 1, out: '' })
  const resolved = await lowmark(url, 'held', 'resolve', '1', '--code', '718-7', '--alike', '--remember', ...why, '--json')
  expect([resolved.status, json(resolved)]).toMatchObject([3, { done: 2, mappingId: 1, stay: [{ heldId: 2 }] }])
  expect(json(await lowmark(url, 'held', '--json'))).toMatchObject({ held: [{ source: 'north', understood: { analyte: 'haemoglobin' } }] })
  expect((await lowmark(url, 'held', 'show', '2')).out).toContain('this row')
  expect((await lowmark(url, 'mapping', 'list')).out).toMatch(/north +code +HB +718-7 +2/)
  expect(await lowmark(url, 'mapping', 'revoke', '1', '--reason', ' ')).toMatchObject({ status: 2 })
  const revoked = await lowmark(url, 'mapping', 'revoke', '1', '--reason', 'another test after all')
  expect(revoked).toMatchObject({ status: 0, out: expect.stringContaining('Mapping 1 is revoked. 2 rows of 1 patient came back') })
  expect(json(await lowmark(url, 'mapping', 'list', '--json'))).toMatchObject({
    mappings: [{ rows: 0, revoked: { reason: 'another test after all' } }],
  })
  expect(json<{ held: { reason: string }[] }>(await lowmark(url, 'held', '--json')).held.map(({ reason }) => reason)).toEqual(
    Array(3).fill('unknown-code'),
  )
  expect(await lowmark(url, 'mapping', 'revoke', '1', '--reason', 'once more')).toMatchObject({ status: 1 })
})

test('held resolve --patient proposes; the same person at the console cannot confirm, and may take it back', async () => {
  const url = freshUrl()
  await lowmark(url, 'intake', fileBeside(url, 'p.csv', [patientRow()]))
  await lowmark(url, 'intake', fileBeside(url, 'r.csv', [resultRow({ patient_id: 'X1' })]), '--source', 'north')
  const proposed = await lowmark(url, 'held', 'resolve', '1', '--patient', 'P1', ...why)
  expect(proposed).toMatchObject({ status: 0, out: 'Proposed for row 1. Somebody else has to confirm it before anything is filed.\n' })
  expect(await lowmark(url, 'held', 'confirm', '1')).toMatchObject({ status: 1, err: expect.stringContaining('Somebody else has to confirm') })
  expect((await lowmark(url, 'held', 'show', '1')).out).toContain('it waits for somebody else to confirm it')
  expect(await lowmark(url, 'held', 'decline', '1', ...why)).toMatchObject({ status: 0, out: 'Declined. Row 1 stays held.\n' })
  expect(await lowmark(url, 'held', 'confirm', '1')).toMatchObject({ status: 1, err: expect.stringContaining('no proposal waits') })
})

test.each([
  [['held', 'resolve', '1', '--file', '--code', '718-7', ...why]],
  [['held', 'resolve', '1', '--refuse', '--remember', ...why]],
  [['held', 'resolve', '1', '--code', '718-7']],
  [['held', 'show']],
  [['held', 'confirm', 'one']],
  [['mapping', 'revoke', 'one', ...why]],
])('%j are wrong words', async (words) => {
  expect((await lowmark('file:./package.json/never-made.db', ...words)).status).toBe(2)
})
