/** `npm run bench`: each promise of speed beside its comparator, in one run. Prints figures; asserts counts and plans, never times. */
import { parseArgs } from 'node:util'
import { followUpFigures } from './followUp.ts'
import { intakeFigures } from './intake.ts'
import { largeFigures } from './largeFigures.ts'
import { machine, shellVersion } from './machine.ts'
import type { Figure } from './measure.ts'
import { listMeasured } from './reviewList.ts'
import { roundFigures } from './roundFigures.ts'

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    rows: { type: 'string', default: '100000' },
    patients: { type: 'string', default: '20000' },
    large: { type: 'string', default: '1000000' },
    rounds: { type: 'string', default: '5' },
  },
})

function whole(name: 'rows' | 'patients' | 'rounds' | 'large', least: number): number {
  const text = values[name]
  const number = Number(text)
  if (/^\d{1,9}$/.test(text) && number >= least) return number
  process.stderr.write(`--${name} takes a whole number, at least ${least}, not "${text}".\n`)
  process.exit(2)
}

function say(line: string): void {
  process.stderr.write(`${line}\n`)
}

function ms(value: number): string {
  return value >= 1000 ? `${(value / 1000).toFixed(2)} s` : `${value.toFixed(2)} ms`
}

function told({ name, ours, comparator, ratio, aim, met, beside, spread }: Figure): string {
  const between = ({ least, most }: Figure['spread']['ours']) => `${ms(least)} to ${ms(most)}`
  return [
    `${name}`,
    `  ours        ${ms(ours)} (${between(spread.ours)})`,
    `  comparator  ${ms(comparator)} (${between(spread.comparator)}): ${beside}`,
    `  ratio       ${ratio.toFixed(1)}`,
    `  aim         ${aim}: ${met ? 'met' : 'NOT met'}`,
    '',
  ].join('\n')
}

const [rows, patients, times, bulk] = [whole('rows', 1), whole('patients', 1), whole('rounds', 5), whole('large', 0)]
const figures: Figure[] = []

if (shellVersion() === null) say('Without the sqlite3 shell there is nothing to hold intake against: left out.')
else {
  say(`Intake of ${rows} rows, ${times + 1} rounds ...`)
  figures.push(...(await intakeFigures(rows, times)))
}

if (bulk > 0 && shellVersion() !== null) {
  say(`Intake of ${bulk} rows in a process of its own, once, and of a tenth of them for its memory: it takes minutes ...`)
  figures.push(...(await largeFigures(bulk, say)))
}

say(`Rounds and every question to the list at ${patients} patients ...`)
figures.push(...(await roundFigures(patients, times)))

say(`The follow-up audit of ${patients} patients over ten years, once: filling the database takes minutes ...`)
figures.push(...(await followUpFigures(patients, say)))

say('The review list at 400 patients ...')
const small = await listMeasured(400, 8, times)
say(`The review list at ${patients} patients: taking them in first, which takes minutes ...`)
const large = await listMeasured(patients, 1, times)
if (small.plan !== large.plan) throw new Error(`Another query plan at ${patients} patients:\n${small.plan}\n${large.plan}`)
figures.push(small.figure, large.figure)
say(`${large.patients} patients and their ${large.rows} rows were taken in in ${ms(large.fillMs)}. The plan at both sizes: ${large.plan}.`)

const on = machine()
say(`${on.cpu}, ${on.cores} cores, ${on.memoryGiB} GiB; load ${on.load.toFixed(1)}; Node ${on.node}; SQLite ${on.sqlite}, shell ${on.sqliteShell}.\n`)
process.stdout.write(values.json ? `${JSON.stringify(figures, null, 2)}\n` : figures.map(told).join('\n'))
