/** `npm run study`: simulates courses whose truth is known, asks the rules, and writes the figures and the picture of docs/study.md. */
import { readFileSync, writeFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { parseDay } from '../../lib/time/index.ts'
import { figuresOf } from './figures.ts'
import { simulateInParts } from './inParts.ts'
import { figuresText, withFigures } from './page.ts'
import { pictureOf } from './picture/index.ts'
import { missingRules } from './watched.ts'

const PAGE = 'docs/study.md'
const PICTURE = 'docs/study.svg'
/** Fewer leave rows of the tables without anybody. */
const FEWEST = 540

const { values } = parseArgs({
  options: {
    courses: { type: 'string', default: '10080' },
    seed: { type: 'string', default: '20261125' },
    processes: { type: 'string', default: '2' },
    on: { type: 'string', default: new Date().toISOString().slice(0, 10) },
    check: { type: 'boolean', default: false },
  },
})

function refuse(sentence: string): never {
  process.stderr.write(`${sentence}\n`)
  process.exit(2)
}

function whole(name: 'courses' | 'seed' | 'processes', least: number): number {
  const text = values[name]
  if (/^\d{1,9}$/.test(text) && Number(text) >= least) return Number(text)
  return refuse(`--${name} takes a whole number, at least ${least}, not "${text}".`)
}

const [courses, seed, processes] = [whole('courses', FEWEST), whole('seed', 0), whole('processes', 1)]
const on = parseDay(values.on) ?? refuse(`--on takes a day written YYYY-MM-DD, not "${values.on}".`)
const missing = missingRules()
if (missing.length > 0) refuse(`There is no rule called ${missing.join(' or ')}, so there is nothing to study.`)

process.stderr.write(`${courses} courses, seed ${seed}, in ${processes} processes ...\n`)
const all = await simulateInParts(courses, seed, processes, (done) => {
  if (done % 500 < 50) process.stderr.write(`${done} done\n`)
})
const figures = figuresOf(all, seed)
const text = figuresText(figures, on)
if (values.check) process.stdout.write(`${text}\n`)
else {
  const page = withFigures(readFileSync(PAGE, 'utf8'), text)
  writeFileSync(PAGE, page)
  writeFileSync(PICTURE, pictureOf(figures))
  process.stderr.write(`Written: ${PAGE}, ${PICTURE}.\n`)
}
