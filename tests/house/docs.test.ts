import { existsSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { may, PERMISSIONS, ROLES } from '../../lib/access/index.ts'
import { COMMANDS } from '../../lib/cli/commands/index.ts'
import { FILE_REASONS, HELD_REASONS, REFUSED_REASONS } from '../../lib/intake/index.ts'
import { filesUnder, section, tableRows, textOf } from './tree.ts'

const README = textOf('README.md')
const DEVELOPERS = textOf('DEVELOPERS.md')

const code = (cell: string | undefined) => (cell ?? '').replaceAll('`', '')
const firstCells = (markdown: string, heading: string) => tableRows(section(markdown, heading) ?? '').map(([cell]) => code(cell))

/** Read, and nobody sets it for this program: where the system finds programs, as of PostgreSQL's for the tests. */
const OF_THE_SYSTEM = ['PATH']

/** Settings that are read anywhere in the program: `process.env.NAME`, but for where it is only set, and what serveClinic requires by name. */
function settingsRead(): string[] {
  const texts = [...filesUnder(['lib', 'app', '.ci'], ['.ts', '.tsx', '.mjs']), ...['prisma.config.ts', 'next.config.ts', 'vitest.config.ts']].map(
    textOf,
  )
  const read = texts.flatMap((text) =>
    [...text.matchAll(/process\.env\.([A-Z_]+)\b(?! \?\?=| = )|required\('([A-Z_]+)'/g)].map(([, env, required]) => env ?? required),
  )
  return [...new Set(read)]
    .flatMap((name) => name ?? [])
    .filter((name) => !OF_THE_SYSTEM.includes(name))
    .toSorted()
}

describe('the README', () => {
  it('has every command with its words, and none besides', () => {
    expect(firstCells(README, '## The command line')).toEqual(COMMANDS.map(({ words, usage }) => [...words, usage].join(' ').trim()))
  })

  it('uses no command that is not there', () => {
    const used = [...README.matchAll(/npm run -s lowmark -- ([a-z]+(?: (?:verify|head|add|disable|resolve))?)/g)].map(([, words]) => words)
    const known = COMMANDS.map(({ words }) => words.join(' '))
    expect(used.length).toBeGreaterThan(3)
    expect(used.filter((words) => !known.includes(words ?? ''))).toEqual([])
  })

  it('has every setting, and none besides', () => {
    expect(settingsRead()).toContain('LOWMARK_TIME_ZONE')
    expect(firstCells(README, '## Starting it in a clinic').toSorted()).toEqual(settingsRead())
  })

  it('uses no script that is not there, and points at no page that is not there', () => {
    const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> }
    const used = [...`${README}${DEVELOPERS}`.matchAll(/npm (?:run (?:-s )?)?(start|test|serve|check|dev|lowmark|bench|[a-z]+)\b/g)].map(
      ([, name]) => name ?? '',
    )
    expect(used.filter((name) => !(name in scripts) && name !== 'ci')).toEqual([])
    const pages = [...README.matchAll(/\]\(([^)h][^)]*\.md)\)/g)].map(([, path]) => path ?? '')
    expect(pages.length).toBeGreaterThan(3)
    expect(pages.filter((path) => !existsSync(path))).toEqual([])
  })

  it("has LOINC's licence notice", () => {
    const notice = README.replaceAll('\n', ' ')
    expect(notice).toContain(
      'LOINC is copyright (c) Regenstrief Institute, Inc. and the Logical Observation Identifiers Names and Codes (LOINC) Committee',
    )
    expect(notice).toContain('available at no cost under the license at http://loinc.org/license')
    expect(notice).toContain('LOINC is a registered United States trademark of Regenstrief Institute, Inc.')
  })
})

describe('docs/intake.md', () => {
  const intake = textOf('docs/intake.md')
  it.each([
    ['## Held rows', HELD_REASONS],
    ['## Refused rows', REFUSED_REASONS],
    ['## Refused files', FILE_REASONS],
  ] as const)('explains every reason under "%s"', (heading, reasons) => {
    expect(firstCells(intake, heading)).toEqual([...reasons])
    for (const [, means] of tableRows(section(intake, heading) ?? '')) expect(means?.length).toBeGreaterThan(10)
  })
})

describe('docs/access.md', () => {
  it('has every permission with the roles that have it', () => {
    const told = tableRows(textOf('docs/access.md')).map((cells) => cells.slice(0, 5).map(code))
    expect(told).toEqual(PERMISSIONS.map((permission) => [permission, ...ROLES.map((role) => (may(role, permission).allowed ? 'yes' : 'no'))]))
  })
})

describe('DEVELOPERS.md', () => {
  it('has a line for every library, and for none besides', () => {
    const { dependencies, devDependencies } = JSON.parse(textOf('package.json')) as Record<'dependencies' | 'devDependencies', Record<string, string>>
    const told = tableRows(section(DEVELOPERS, '## Libraries, and why each') ?? '').flatMap(([cell]) => (cell ?? '').split(', ').map(code))
    expect(told.toSorted()).toEqual([...Object.keys(dependencies), ...Object.keys(devDependencies)].toSorted())
  })

  it('numbers its decisions, dates them, and keeps each to 40 lines', () => {
    const decisions = section(DEVELOPERS, '## Decisions') ?? ''
    const headings = [...decisions.matchAll(/^### (\d+)\. .+ \((\d{4}-\d{2}-\d{2})\)$/gm)]
    // Each number once, in order; numbers are given out before their work is done, so some may still be missing.
    const numbers = headings.map(([, number]) => Number(number))
    expect(numbers).toEqual([...new Set(numbers)].toSorted((a, b) => a - b))
    expect(numbers[0]).toBe(1)
    expect(headings.length).toBe([...decisions.matchAll(/^### /gm)].length)
    expect(headings.length).toBeGreaterThanOrEqual(14)
    for (const [heading] of headings) expect(section(DEVELOPERS, heading)?.split('\n').length).toBeLessThanOrEqual(40)
  })
})
