import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { failedTests } from '../../.ci/failedTests.ts'

const WAITS = '\u001b[2m    - waiting for element to be visible, enabled and stable\u001b[22m\n'
// As Playwright 1.65 wrote them, colours included: the beginning of both; of a button that moved, what follows, and the same cut off while it looks again;
// of scripts that never end.
const BEGUN = [
  'locator.click: Timeout 90000ms exceeded.',
  'Call log:',
  "\u001b[2m  - waiting for getByRole('button')\u001b[22m",
  '\u001b[2m    - locator resolved to <button>go</button>\u001b[22m',
  '\u001b[2m  - attempting click action\u001b[22m',
  '',
].join('\n')
const STALLED = `${BEGUN}${WAITS}`
const MOVING = [
  `${BEGUN}\u001b[2m    2 × waiting for element to be visible, enabled and stable\u001b[22m`,
  '\u001b[2m      - element is not stable\u001b[22m',
  '\u001b[2m    - retrying click action\u001b[22m',
  '\u001b[2m    - waiting 20ms\u001b[22m',
  '',
].join('\n')
const MOVING_CUT = `${MOVING}${WAITS}`
const NEVER_ENDING = "locator.click: Timeout 90000ms exceeded.\nCall log:\n\u001b[2m  - waiting for getByRole('button')\u001b[22m\n"
const EXPECTED = ['stalledTwice', 'movedOnce', 'movedCutOnce', 'neverEndingOnce', 'lostOnce']
const LOST = 'page.waitForURL: Timeout 90000ms exceeded.'

test('a test is begun once more where the browser drew nothing, and for nothing else', () => {
  const root = mkdtempSync(join(tmpdir(), 'lowmark-frames-'))
  onTestFinished(() => rmSync(root, { recursive: true, force: true }))
  mkdirSync(join(root, 'tests'))
  const failing = (name: string, message: string, times: number) =>
    `let ${name} = 0\ntest('${name}', () => { if (++${name} <= ${times}) throw new Error(${JSON.stringify(message)}) })\n`
  const tests = [
    failing('stalledOnce', STALLED, 1),
    failing('stalledTwice', STALLED, 2),
    failing('movedOnce', MOVING, 1),
    failing('movedCutOnce', MOVING_CUT, 1),
    failing('neverEndingOnce', NEVER_ENDING, 1),
    failing('lostOnce', LOST, 1),
  ]
  writeFileSync(join(root, 'tests', 'some.test.ts'), tests.join(''))
  const report = join(root, 'report.json')
  const args = ['--config', resolve('vitest.config.ts'), '--root', root, '--globals', '--reporter=json', `--outputFile=${report}`]
  // The files of set-up are named from the place of the project.
  for (const file of ['quietConsole.ts', 'pseudonymKey.ts']) writeFileSync(join(root, 'tests', file), '')
  spawnSync(resolve('node_modules/.bin/vitest'), ['run', ...args], { stdio: 'ignore' })
  const told = failedTests(JSON.parse(readFileSync(report, 'utf8')), root)
  expect(told.map((piece) => piece.split('\n')[0])).toEqual(EXPECTED.map((name) => `tests/some.test.ts: ${name}`))
})
