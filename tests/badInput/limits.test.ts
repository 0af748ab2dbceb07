import { execFileSync, spawn } from 'node:child_process'
import { closeSync, openSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { textTable } from '../../lib/cli/table.ts'
import { interpretCourseEvent, interpretResult, readTable } from '../../lib/intake/index.ts'
import { readImmunofixation } from '../../lib/results/index.ts'
import { json, lowmark } from '../cli/terminal.ts'
import { bytesOf, patient, resultRow, rowOf, TODAY } from '../intake/rows.ts'
import { folderOf, freshUrl } from '../store/freshStore.ts'

const MIB = 1024 * 1024
const HEADER = 'patient_id,birth_date,sex'
const beside = (url: string, name: string): string => join(folderOf(url), name)

/** How much more memory the process held at most while something ran, in MiB. */
async function memoryOf(run: () => Promise<unknown>): Promise<number> {
  const before = process.memoryUsage().rss
  let most = before
  const watch = setInterval(() => {
    most = Math.max(most, process.memoryUsage().rss)
  }, 20)
  await run()
  clearInterval(watch)
  return (Math.max(most, process.memoryUsage().rss) - before) / MIB
}

describe('a file that would fill the memory', () => {
  test('more than 512 MiB is told from its size, before it is read', async () => {
    const url = freshUrl()
    const path = beside(url, 'large.csv')
    writeFileSync(path, `${HEADER}\n`)
    truncateSync(path, 600 * MIB)
    const held = await memoryOf(async () => {
      const ran = await lowmark(url, 'intake', path, '--json')
      expect(ran.status).toBe(1)
      expect(ran.out + ran.err).toContain('512 MiB')
    })
    expect(held).toBeLessThan(200)
  })

  test('a device that never ends is left at the limit', async () => {
    const held = await memoryOf(async () => {
      expect(await lowmark(freshUrl(), 'intake', '/dev/zero')).toMatchObject({ status: 1, out: expect.stringContaining('more than 512 MiB') })
    })
    expect(held).toBeLessThan(200)
  })

  test('a pipe is read to its end, and one that never ends is left at the limit', async () => {
    const url = freshUrl()
    const pipe = beside(url, 'pipe')
    execFileSync('mkfifo', [pipe])
    const short = spawn('sh', ['-c', `printf '%s\\nP1,1950,female\\n' '${HEADER}' > '${pipe}'`])
    const ran = await lowmark(url, 'intake', pipe, '--json')
    expect(json(ran)).toMatchObject({ files: [{ rows: 1, filed: 1, refused: 0 }] })
    expect(short.exitCode ?? 0).toBe(0)
    const endless = spawn('sh', ['-c', `exec yes '${HEADER}' > '${pipe}'`])
    const ended = new Promise((resolve) => endless.once('exit', resolve))
    // The other end is left open a moment longer than the reader, as a sender would.
    const other = openSync(pipe, 'r+')
    try {
      const left = await lowmark(url, 'intake', pipe)
      expect(left.status).toBe(1)
      expect(left.out + left.err).toContain('512 MiB')
    } finally {
      endless.kill()
      closeSync(other)
      await ended
    }
  })
})

describe('a file that would take for ever, or more of the stack than there is', () => {
  const within = (ms: number, text: string) => {
    const began = performance.now()
    const table = readTable(bytesOf(text), 'file.csv')
    expect(performance.now() - began).toBeLessThan(ms)
    return table
  }

  test('one giant line of four hundred thousand column names', () => {
    const names = Array.from({ length: 400_000 }, (_, at) => `c${at}`)
    expect(within(5_000, `${HEADER},${names.join(',')}\n`)).toMatchObject({
      ok: false,
      reason: 'unknown-column',
      sentence: expect.stringContaining('"c0"'),
    })
  })

  test('one giant line of thirty million characters without a separator: the sentence stays short', () => {
    const table = within(5_000, 'x'.repeat(30_000_000))
    expect(table).toMatchObject({ ok: false, reason: 'unknown-header' })
    expect(table.ok ? '' : table.sentence).toMatch(/^.{50,200}$/)
  })

  test('one cell of a hundred thousand words, in each place that is read word by word', () => {
    const began = performance.now()
    expect(readImmunofixation('IgG kappa '.repeat(100_000))).toMatchObject({ reading: 'unread' })
    const marrow = rowOf({ patient_id: 'P1', on: '2026-01-10', event: 'marrow', abnormalities: `${';'.repeat(500_000)}t(4;14);del(17p)` })
    expect(interpretCourseEvent(marrow, patient(), TODAY)).toMatchObject({ outcome: 'take', value: { abnormalities: ['t(4;14)', 'del(17p)'] } })
    const gains = rowOf({ patient_id: 'P1', on: '2026-01-10', event: 'line-start', line: '1', regimen: '+'.repeat(500_000) })
    expect(interpretCourseEvent(gains, patient(), TODAY)).toMatchObject({ outcome: 'take', value: { regimen: [] } })
    for (const value of ['('.repeat(500_000), 'no monoclonal '.repeat(50_000), '1,'.repeat(300_000), ' '.repeat(500_000)]) {
      expect(['take', 'held', 'refused']).toContain(interpretResult(resultRow({ value, unit: value, collected_at: value }), patient(), TODAY).outcome)
    }
    expect(performance.now() - began).toBeLessThan(5_000)
  })

  test('a queue of two hundred thousand held rows is printed', () => {
    const rows = Array.from({ length: 200_000 }, (_, at) => [String(at), 'unknown-code'])
    expect(textTable(['id', 'reason'], rows).split('\n')).toHaveLength(200_002)
  })

  test('a report that names one result sixty thousand times', () => {
    const references = Array.from({ length: 60_000 }, () => '{"reference":"Observation/o"}').join(',')
    const text = `{"resource":{"resourceType":"Observation","id":"o"}},{"resource":{"resourceType":"DiagnosticReport","result":[${references}]}}`
    const table = within(5_000, `{"resourceType":"Bundle","type":"collection","entry":[${text}]}`)
    expect(table.ok ? table.rows.length : table.sentence).toBe(1)
  })

  test('lists that are never closed, a hundred thousand deep: told at the 65th', () => {
    for (const open of ['[', '{"a":']) {
      const table = within(5_000, `{"resourceType":"Bundle","entry":${open.repeat(100_000)}`)
      expect(table).toMatchObject({ ok: false, reason: 'nested-too-deep' })
    }
  })

  test('a hundred and fifty thousand empty lines before the last row: each is a row that is refused', async () => {
    const url = freshUrl()
    const path = beside(url, 'gaps.csv')
    writeFileSync(path, `${HEADER}\n${'\n'.repeat(150_000)}P1,1950,female\n`)
    const { files } = json<{ files: Record<string, unknown>[] }>(await lowmark(url, 'intake', path, '--json'))
    expect(files[0]).toMatchObject({ rows: 150_001, filed: 1, refused: 150_000, held: 0 })
  })
})
