/** `npm test`: every check in turn, and one closing line that counts them all. */
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, rmSync } from 'node:fs'
import { programs } from './cluster.ts'
import { failedTests, type TestReport } from './failedTests.ts'

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

const VITEST = ['node_modules/.bin/vitest', 'run', '--reporter=default', '--reporter=json']

function run(command: readonly string[]): boolean {
  const [program, ...args] = command
  if (program === undefined) return false
  const env = { ...process.env, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: undefined }
  return spawnSync(program, args, { stdio: ['ignore', 'inherit', 'inherit'], env: env as NodeJS.ProcessEnv }).status === 0
}

let passed = 0
const failed: string[] = []
const why: string[] = []
for (const check of CHECKS) {
  process.stdout.write(`\n${check.name}\n`)
  if (run(check.command)) passed += 1
  else failed.push(check.name)
}

/** One run of the tests, each counted; `where` is the engine they ran on. */
function runTests(where: string, command: readonly string[]): void {
  process.stdout.write(`\ntests on ${where}\n`)
  const reported = `tests/output/vitest-${where}.json`
  rmSync(reported, { force: true })
  const green = run([...command, `--outputFile.json=${reported}`])
  if (!existsSync(reported)) {
    failed.push(`the test run on ${where} left no report`)
    return
  }
  const report = JSON.parse(readFileSync(reported, 'utf8')) as TestReport
  passed += report.numPassedTests
  for (let i = 0; i < report.numFailedTests; i++) failed.push(`a test on ${where}`)
  for (const test of failedTests(report, process.cwd())) why.push(`on ${where}, ${test}`)
  if (report.numFailedTests === 0 && !green) failed.push(`the test run on ${where}`)
}

runTests('sqlite', VITEST)
const hasServer = programs() !== null
if (hasServer) runTests('postgresql', ['node_modules/.bin/tsx', '.ci/server.ts', ...VITEST, '--config', 'vitest.server.config.ts'])
else
  process.stdout.write(
    '\ntests on postgresql\nNOT TESTED: PostgreSQL is not installed (Debian: postgresql), so nothing was run on the second engine.\n',
  )

for (const test of why) process.stdout.write(`\nFAILED ${test}`)
if (failed.length > 0) process.stdout.write(`\nFailed: ${failed.join(', ')}\n`)
if (!hasServer) process.stdout.write('The second engine was NOT TESTED.\n')
process.stdout.write(`${passed} passed, ${failed.length} failed\n`)
process.exit(failed.length === 0 ? 0 : 1)
