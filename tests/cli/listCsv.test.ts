import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { folderOf, freshUrl } from '../store/freshStore.ts'
import { courseRows, csv, patientRow, resultRow } from '../usecases/clinic.ts'
import { json, lowmark } from './terminal.ts'

test('list --csv prints the list as a file of its own: caution first, a row for everybody, formulas as text', async () => {
  const url = freshUrl()
  const files = [
    csv('patients.csv', [patientRow({ family_name: '=1+1' }), patientRow({ patient_id: '@P2' })]),
    csv('course.csv', courseRows()),
    csv('results.csv', [resultRow()]),
  ]
  const paths = files.map(({ name, bytes }) => {
    const path = join(folderOf(url), name)
    writeFileSync(path, bytes)
    return path
  })
  expect((await lowmark(url, 'intake', ...paths)).status).toBe(0)
  const ran = await lowmark(url, 'list', '--csv')
  expect(ran).toMatchObject({ status: 0, err: '' })
  expect(ran.out).toMatch(/^\ufeff"Lowmark flags for review\. It does not diagnose/)
  expect(ran.out.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  const [, , , header, ...rows] = Papa.parse<string[]>(ran.out.slice(1).trimEnd(), { delimiter: ',' }).data
  expect(header?.slice(0, 3)).toEqual(['place', 'patient', 'name'])
  const { patients } = json<{ patients: { patientId: string; why: string }[] }>(await lowmark(url, 'list', '--json'))
  expect(rows.map((row) => [row[1], row[7]])).toEqual(patients.map(({ patientId, why }) => [patientId.replace('@', "'@"), why]))
  expect(rows.flat()).toContain("'=1+1")
  expect((await lowmark(url, 'list', '--csv', '--as-of', '2024-03-01')).out).toContain('Review list as of 2024-03-01, plan version')
  expect(await lowmark(url, 'list', '--csv', '--json')).toMatchObject({
    status: 2,
    out: '',
    err: expect.stringContaining('Say either --json or --csv.'),
  })
})
