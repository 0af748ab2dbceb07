import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { failedTests } from '../../.ci/failedTests.ts'

test('the end of a long run names each test that failed, and each file that could not be run, with the beginning of why', () => {
  const root = mkdtempSync(join(tmpdir(), 'lowmark-failed-'))
  onTestFinished(() => rmSync(root, { recursive: true, force: true }))
  mkdirSync(join(root, 'tests'))
  const of = (name: string, source: string) => writeFileSync(join(root, 'tests', name), source)
  of('half.test.ts', "describe('a sum', () => { test('holds', () => {}); test('is wrong', () => { expect(1 + 1).toBe(3) }) })")
  of('broken.test.ts', "import './missing.ts'\ntest('is never run', () => {})")
  of('long.test.ts', "test('says much', () => { throw new Error('line\\n'.repeat(500) + 'the end') })")
  const report = join(root, 'report.json')
  const vitest = resolve('node_modules/.bin/vitest')
  spawnSync(vitest, ['run', '--root', root, '--globals', '--reporter=json', `--outputFile=${report}`], { stdio: 'ignore' })
  const told = [...failedTests(JSON.parse(readFileSync(report, 'utf8')), root)].sort()
  expect(told.map((piece) => piece.split('\n')[0])).toEqual([
    'tests/broken.test.ts',
    'tests/half.test.ts: a sum is wrong',
    'tests/long.test.ts: says much',
  ])
  expect(told[0]).toContain('missing.ts')
  expect(told[1]).toContain('expected 2 to be 3')
  expect(told[2]).not.toContain('the end')
})
