import { execFileSync, spawn } from 'node:child_process'
import { existsSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import { folderOf, freshUrl, incomingOf } from '../store/freshStore.ts'
import { lowmark } from './terminal.ts'

let url: string
let directory: string
beforeEach(() => {
  url = freshUrl()
  directory = folderOf(url)
})

const left = (): readonly string[] => {
  const incoming = incomingOf(url)
  return existsSync(incoming) ? readdirSync(incoming) : []
}

test('a pipe is read to its end and taken in like a file; nothing of it is left beside the database', async () => {
  const pipe = join(directory, 'people.csv')
  execFileSync('mkfifo', [pipe])
  spawn('sh', ['-c', `printf 'patient_id,birth_date,sex\\nP1,1950,female\\n' > "$0"; `, pipe])
  const ran = await lowmark(url, 'intake', pipe)
  expect(ran).toMatchObject({ status: 0, out: expect.stringContaining('people.csv  sha256 ') })
  expect(ran.out).toContain('1 rows = 1 filed')
  expect(left()).toEqual([])
})

test('a device without end is read up to the limit and refused whole', { timeout: 120_000 }, async () => {
  const ran = await lowmark(url, 'intake', '/dev/zero', '--json')
  expect(ran.status).toBe(1)
  expect(JSON.parse(ran.out)).toMatchObject({
    files: [{ file: 'zero', fileRefused: { reason: 'file-too-large', sentence: 'zero has more than 512 MiB; it may have at most 512 MiB.' } }],
  })
  expect(left()).toEqual([])
})

test('the JSON of many rows is one document, written as any other', async () => {
  const rows = Array.from({ length: 1_200 }, (_, at) => `P1,2026-02-30,33358-3,14.2,g/L,"A${at}"`)
  const bad = join(directory, 'bad.csv')
  writeFileSync(bad, `patient_id,collected_at,code,value,unit,accession\n${rows.join('\n')}\n`)
  const people = join(directory, 'people.csv')
  writeFileSync(people, 'patient_id,birth_date,sex\nP1,1950,female\n')
  for (const more of [['--dry-run'], []]) {
    const ran = await lowmark(url, 'intake', bad, people, '--json', ...more)
    expect(ran.status).toBe(3)
    const document = JSON.parse(ran.out) as { files: { file: string; problems: { line: number }[] }[] }
    expect(ran.out).toBe(`${JSON.stringify(document, null, 2)}\n`)
    expect(document).toMatchObject({
      dryRun: more.length === 1,
      files: [
        { file: 'people.csv', problems: [] },
        { file: 'bad.csv', refused: 1_200 },
      ],
    })
    expect(document.files[1]?.problems.map(({ line }) => line)).toEqual(rows.map((_, at) => at + 2))
  }
})
