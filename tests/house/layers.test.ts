import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { createRequire } from 'node:module'
import { resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { plantedCopy, section, tableRows, textOf } from './tree.ts'

interface Rule {
  readonly name: string
  readonly from: { readonly path?: string }
  readonly to: { readonly pathNot?: readonly string[] }
}

const { forbidden } = createRequire(import.meta.url)(resolve('.ci/layers.cjs')) as { forbidden: readonly Rule[] }

/** Which rooms each room sees, in the order of the table, as the tool is told. */
const SEES = new Map(
  forbidden.flatMap(({ name, to }): [string, string[]][] => {
    const room = /^(\w+)-sees-only-what-stands-before-it$/.exec(name)?.[1]
    if (room === undefined) return []
    return [[room, (to.pathNot ?? []).flatMap((path) => /^\^lib\/(\w+)\/index/.exec(path)?.[1] ?? [])]]
  }),
)

function violations(directory: string): { rule: string; from: string }[] {
  const config = ['--config', '.ci/layers.cjs', '--output-type', 'json', 'lib', 'app', 'seed']
  const done = spawnSync(resolve('node_modules/.bin/depcruise'), config, { cwd: directory, encoding: 'utf8', maxBuffer: 2 ** 28 })
  const { summary } = JSON.parse(done.stdout) as { summary: { violations: { rule: { name: string }; from: string }[]; totalCruised: number } }
  if (summary.totalCruised < 300) throw new Error(`Only ${summary.totalCruised} files were looked at.`)
  return summary.violations.map(({ rule, from }) => ({ rule: rule.name, from }))
}

/** A file that breaks a rule, and the rule it breaks; a circle is told once, at one of its files. */
const PLANTED = [
  ['lib/time/planted.ts', "export { decimal } from '../units/index.ts'", 'time-sees-only-what-stands-before-it'],
  ['lib/plan/planted.ts', "export { egfr } from '../course/kidney.ts'", 'plan-sees-only-what-stands-before-it'],
  ['lib/intake/planted.ts', "export type { Course } from '../course/index.ts'", 'intake-sees-only-what-stands-before-it'],
  ['lib/review/planted.ts', "export { assess } from '../standing/index.ts'", 'review-sees-only-what-stands-before-it'],
  ['lib/store/planted.ts', "export { assess } from '../usecases/index.ts'", 'store-sees-only-what-stands-before-it'],
  ['lib/rules/mde/planted.ts', "export { mdeMri } from './mri.ts'", 'rules-never-import-each-other'],
  ['lib/usecases/planted.ts', "export { default } from 'better-sqlite3'", 'database-only-in-store'],
  ['app/list/planted.ts', "export { showList } from '../../lib/usecases/index.ts'", 'pages-reach-use-cases-only-through-the-server-door'],
  ['seed/planted.ts', "export { readTable } from '../lib/intake/index.ts'", 'seed-enters-through-intake'],
  ['lib/units/planted.ts', "export * from './plantedToo.ts'", 'no-circles'],
  ['lib/units/plantedToo.ts', "export * from './planted.ts'", null],
] as const

// Every file is read: some twenty seconds, and more than a minute on a machine that does other things.
const READING_MS = 240_000

describe('layers', () => {
  let copy: ReturnType<typeof plantedCopy>
  beforeAll(() => {
    copy = plantedCopy(Object.fromEntries(PLANTED.map(([path, text]) => [path, `${text}\n`])))
  })
  afterAll(() => copy.remove())

  it('are kept', { timeout: READING_MS }, () => {
    expect(violations('.')).toEqual([])
  })

  it('are found broken where they are, and nowhere else', { timeout: READING_MS }, () => {
    const found = violations(copy.directory).map(({ rule, from }) => `${rule}: ${from}`)
    expect(found.toSorted()).toEqual(PLANTED.flatMap(([path, , rule]) => (rule === null ? [] : `${rule}: ${path}`)).toSorted())
  })

  it('know every room of lib', () => {
    expect(readdirSync('lib').toSorted()).toEqual([...SEES.keys()].toSorted())
  })

  it('stand in DEVELOPERS.md as the tool knows them', () => {
    const above: string[] = []
    const told = tableRows(section(textOf('DEVELOPERS.md'), '## The chain') ?? '').map(([name = '', , sees = '']) => {
      const words = sees.replace(/ \(.*\)$|, and .*$/g, '')
      const left = /^all above but (\w+)$/.exec(words)?.[1]
      const seen = words === 'nothing' ? [] : words.startsWith('all above') ? above.filter((other) => other !== left) : words.split(' ')
      const room = name.replaceAll('`', '')
      above.push(room)
      return [room, seen.toSorted()]
    })
    expect(Object.fromEntries(told)).toEqual(Object.fromEntries([...SEES].map(([room, seen]) => [room, seen.toSorted()])))
  })
})
