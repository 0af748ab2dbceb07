/** `npm test`: every check in turn, and one closing line that counts them all. */
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, rmSync } from 'node:fs'

interface Check {
  readonly name: string
  readonly command: readonly string[]
}

const CHECKS: readonly Check[] = [
  { name: 'types', command: ['node_modules/.bin/tsc', '--noEmit', '-p', '.'] },
  { name: 'lint', command: ['node_modules/.bin/biome', 'check', '--error-on-warnings', '.'] },
  { name: 'layers', command: ['node_modules/.bin/depcruise', '--config', '.ci/layers.cjs', 'lib', 'app', 'seed'] },
  { name: 'build', command: ['node_modules/.bin/tsx', '.ci/build.ts'] },
]

const REPORT = 'tests/output/vitest.json'

function run(command: readonly string[]): boolean {
  const [program, ...args] = command
  if (program === undefined) return false
  const env = { ...process.env, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: undefined }
  return spawnSync(program, args, { stdio: ['ignore', 'inherit', 'inherit'], env: env as NodeJS.ProcessEnv }).status === 0
}

let passed = 0
const failed: string[] = []
for (const check of CHECKS) {
  process.stdout.write(`\n${check.name}\n`)
  if (run(check.command)) passed += 1
  else failed.push(check.name)
}

process.stdout.write('\ntests\n')
rmSync(REPORT, { force: true })
const green = run(['node_modules/.bin/vitest', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${REPORT}`])
if (existsSync(REPORT)) {
  const report = JSON.parse(readFileSync(REPORT, 'utf8')) as { numPassedTests: number; numFailedTests: number; numFailedTestSuites: number }
  passed += report.numPassedTests
  for (let i = 0; i < report.numFailedTests; i++) failed.push('a test')
  if (report.numFailedTests === 0 && !green) failed.push('the test run')
} else failed.push('the test run left no report')

if (failed.length > 0) process.stdout.write(`\nFailed: ${failed.join(', ')}\n`)
process.stdout.write(`${passed} passed, ${failed.length} failed\n`)
process.exit(failed.length === 0 ? 0 : 1)
