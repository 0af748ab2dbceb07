import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Papa from 'papaparse'
import { beforeAll, describe, expect, test } from 'vitest'
import { folderOf, freshUrl } from '../store/freshStore.ts'
import { FILES } from '../usecases/followup/audited.ts'
import { followUpDocument } from './schema.ts'
import { json, lowmark, npmRunLowmark } from './terminal.ts'

const url = freshUrl()
const PERIOD = ['--from', '2026-01-01', '--to', '2026-10-31', '--as-of', '2026-11-25'] as const

beforeAll(async () => {
  const paths = FILES.map(({ name, bytes }) => {
    const path = join(folderOf(url), name)
    writeFileSync(path, bytes)
    return path
  })
  expect((await lowmark(url, 'intake', ...paths)).status).toBe(0)
})

describe('follow-up', () => {
  test('--json: one document with exactly its fields, the same as a person would get; progress on standard error', async () => {
    const ran = await npmRunLowmark(url, 'follow-up', ...PERIOD, '--json')
    expect(ran.status).toBe(0)
    const document = followUpDocument.parse(json(ran))
    expect(document).toMatchObject({ from: '2026-01-01', to: '2026-10-31', onTime: { due: 24, onTime: 16, late: 4, missed: 4 }, groups: [] })
    expect(ran.err).toContain('patients audited: 3 of 3')
    expect((await lowmark(url, 'follow-up', ...PERIOD, '--json')).out).toBe(ran.out)
  })

  test.each([
    ['month', ['2026-03', 'others']],
    ['clinician', ['others']],
    ['phase', ['others']],
  ])('--by %s: groups of fewer than five stand together', async (by, keys) => {
    const { groups } = followUpDocument.parse(json(await lowmark(url, 'follow-up', ...PERIOD, '--by', by, '--json')))
    expect(groups.map(({ key }) => key)).toEqual(keys)
  })

  test('as a table: the whole, then the groups, then the other measures in words', async () => {
    const ran = await lowmark(url, 'follow-up', ...PERIOD, '--by', 'month')
    expect(ran.status).toBe(0)
    expect(ran.out).toMatch(/^month\s+due\s+on time\s+late\s+missed\s+share on time\s+95 %\nall\s+24\s+16\s+4\s+4\s+66\.7 %/)
    expect(ran.out).toContain('late by: median 46 days, 90th percentile 46 days')
    expect(ran.err).toMatch(/Data up to 2026-11-25, revision \d+, SHA-256 of the figures [0-9a-f]{64}\.\nLowmark flags for review/)
  })

  test('--csv: a file that says of which state it is', async () => {
    const ran = await lowmark(url, 'follow-up', ...PERIOD, '--by', 'month', '--csv')
    const [caution, about, , header, ...rows] = Papa.parse<string[]>(ran.out.slice(1).trimEnd(), { delimiter: ',' }).data
    expect(caution?.[0]).toContain('does not diagnose')
    expect(about?.[0]).toContain('Follow-up audit from 2026-01-01 to 2026-10-31')
    expect(header?.slice(0, 3)).toEqual(['month', 'due', 'on time'])
    expect(rows.map((row) => row.slice(0, 2))).toEqual([
      ['all', '24'],
      ['2026-03', '8'],
      ['others', '16'],
    ])
  })

  test('--what-if says how many more would have been due', async () => {
    expect((await lowmark(url, 'follow-up', ...PERIOD, '--what-if', '1')).out).toContain(
      'under the other version of the plan: 24 due (0 more), 4 late, 4 missed',
    )
    expect(await lowmark(url, 'follow-up', ...PERIOD, '--what-if', '7')).toMatchObject({
      status: 1,
      out: '',
      err: expect.stringContaining('number 7'),
    })
  })

  test('an empty database has nothing due, and says so', async () => {
    const { onTime, chart, daysToReview } = followUpDocument.parse(json(await lowmark(freshUrl(), 'follow-up', ...PERIOD, '--json')))
    expect(onTime).toEqual({ due: 0, onTime: 0, late: 0, missed: 0, proportion: null, wilson95: null })
    expect([chart, daysToReview]).toEqual([[], { events: 0, open: 0, median: null, curve: [] }])
  })

  test.each([
    [[]],
    [['--from', '2026-01-01']],
    [['--from', '2026-01-01', '--to', '31.12.2026']],
    [['--from', '2026-02-30', '--to', '2026-12-31']],
    [['--from', '2026-06-01', '--to', '2026-05-31']],
    [[...PERIOD, '--by', 'laboratory']],
    [[...PERIOD, '--json', '--csv']],
    [[...PERIOD, '--what-if', 'two']],
    [[...PERIOD, 'more']],
  ])('wrong words %j: status 2, nothing on standard output', async (words) => {
    expect(await lowmark(url, 'follow-up', ...words)).toMatchObject({ status: 2, out: '', err: expect.stringContaining('Use: follow-up') })
  })
})
