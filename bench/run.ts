/**
 * `npm run bench`: each promise of speed beside its comparator, in one run from one seed. Prints figures; asserts equal answers, counts and plans, never times.
 */
import { existsSync } from 'node:fs'
import { buildPages } from '../.ci/build.ts'
import { arrivalFigure } from './arrival.ts'
import { twoCohorts } from './cohorts.ts'
import { dayFigure } from './day.ts'
import { engineNamed } from './engine/engineNamed.ts'
import { evaluateFigure } from './evaluate/figures.ts'
import { filledCohort } from './evaluate/filled.ts'
import { furtherFigures } from './further.ts'
import { canImport } from './importer.ts'
import { intakeFigure, intakePeak } from './intakeRounds.ts'
import { listFigure } from './list/figures.ts'
import { machine, shellVersion } from './machine.ts'
import type { Figure } from './measure.ts'
import { memoryFigure } from './memory.ts'
import { buildMinimal } from './pages/buildMinimal.ts'
import { readSizes } from './sizes.ts'
import { machineTold, told } from './told.ts'

const figures: Figure[] = []
const sizes = readSizes(process.argv.slice(2))
const began = performance.now()

function say(line: string): void {
  process.stderr.write(`${String(Math.round((performance.now() - began) / 1000)).padStart(5)} s  ${line}\n`)
}

/** Tells a figure as soon as it is known, so that a run that is broken off was not for nothing. */
function measured(figure: Figure): void {
  say(told(figure))
  figures.push(figure)
}

const has = (part: (typeof sizes.only)[number]): boolean => sizes.only.includes(part)
const hasShell = shellVersion() !== null
const on = machine()
const engine = await engineNamed(sizes.engine, 'bench')
const hasImporter = canImport(engine)

say(`${machineTold(on)} Measured on ${engine.says}.`)
if (!hasShell) say('Without the sqlite3 shell there is nothing to hold evaluation against: left out.')
if (!hasImporter) say("Without the engine's own shell there is nothing to hold intake against: left out.")

const intake = has('intake') && hasImporter ? await intakeFigure(engine, sizes.rows, sizes.rounds) : null
if (intake !== null) measured(intake.figure)
if (has('evaluate') && hasShell) {
  say(`Evaluating ${sizes.evaluate} patients with 15 years of 25 analytes a month: filling the database first ...`)
  const { figure, filled } = await evaluateFigure(engine, sizes.evaluate, sizes.rounds, say)
  measured(figure)
  if (has('memory'))
    measured(await memoryFigure(filled, intake === null ? null : { whole: intake.peak, tenth: await intakePeak(engine, sizes.rows / 10) }))
} else if (has('memory')) measured(await memoryFigure(await filledCohort(engine, sizes.evaluate, say), null))

if (has('arrival') || has('day')) {
  say(`Two clinics, ${sizes.few} and ${sizes.patients} patients: filling the databases first ...`)
  const cohorts = await twoCohorts(engine, sizes.few, sizes.patients, say)
  if (has('arrival')) measured(await arrivalFigure(engine, cohorts, sizes.rounds))
  if (has('day')) measured(await dayFigure(engine, cohorts, sizes.rounds))
}
if (has('list') && !existsSync('/usr/bin/chromium'))
  say('Chromium is not installed at /usr/bin/chromium, so nobody can sign in: the list over HTTP is left out.')
else if (has('list')) {
  say(`The list at ${sizes.list} patients over HTTP: pages are built, and the database filled, first ...`)
  if (!buildPages() || !buildMinimal()) process.exit(1)
  measured(await listFigure(engine, sizes.list, sizes.rounds))
}
if (sizes.more && engine.server === null) figures.push(...(await furtherFigures(sizes, say)))

const load = machine().load.toFixed(1)
say(`${machineTold(on)} Load at the end ${load}.`)
process.stdout.write(sizes.json ? `${JSON.stringify(figures, null, 2)}\n` : `${figures.map(told).join('\n')}\n`)
