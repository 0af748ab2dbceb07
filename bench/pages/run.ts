/**
 * `npm run bench:pages`: the review list in a real browser, at 400 and at 20,000 patients, beside a minimal page of the same framework that asks the same of
 * the same database. Prints figures; asserts that both answer with the same rows, never a time.
 */
import { existsSync, mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { buildPages } from '../../.ci/build.ts'
import { machine } from '../machine.ts'
import { buildMinimal } from './buildMinimal.ts'
import { fillFor } from './fillFor.ts'
import { measureList } from './measureList.ts'
import { machineTold, told } from './told.ts'

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    patients: { type: 'string', default: '400,20000' },
    rounds: { type: 'string', default: '30' },
    keep: { type: 'string' },
  },
})

function say(line: string): void {
  process.stderr.write(`${line}\n`)
}

if (!existsSync('/usr/bin/chromium')) {
  say('Chromium is not installed at /usr/bin/chromium: nothing to measure with.')
  process.exit(2)
}
if (!buildPages() || !buildMinimal()) process.exit(1)
if (values.keep !== undefined) mkdirSync(values.keep, { recursive: true })

const measured = []
for (const patients of values.patients.split(',').map(Number)) {
  const filled = await fillFor(patients, values.keep === undefined ? null : join(values.keep, `list-${patients}.db`), say)
  measured.push(await measureList(filled, Number(values.rounds), say))
}
const on = machine()
process.stdout.write(values.json ? `${JSON.stringify({ on, measured }, null, 2)}\n` : `${measured.map(told).join('\n')}\n${machineTold(on)}\n`)
