import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { plantedCopy } from './tree.ts'

/** What no pure room may do, a line each, and a piece of what is said about it. */
const IMPURE = [
  ['export const a = new Date()', 'A pure room reads no clock'],
  ['export const a = Date.now()', 'A pure room reads no clock'],
  ['export const a = Math.random()', 'A pure room reads no clock'],
  ['export const a = performance.now()', 'A pure room reads no clock'],
  ["console.log('heard')", 'A pure room says nothing by itself'],
  ['export const a = process.env.HOME', 'A pure room knows no process'],
  ["export const a = fetch('https://elsewhere.example')", 'A pure room reaches nothing outside'],
] as const

const PURE = [
  'time',
  'units',
  'results',
  'course',
  'models',
  'plan',
  'rules',
  'standing',
  'review',
  'statistics',
  'charts',
  'intake',
  'access',
  'trail',
]

describe('lint in the pure rooms', () => {
  let copy: ReturnType<typeof plantedCopy>
  const lint = (path: string) => {
    const done = spawnSync(resolve('node_modules/.bin/biome'), ['lint', '--colors=off', path], { cwd: copy.directory, encoding: 'utf8' })
    return { status: done.status, says: `${done.stdout}${done.stderr}` }
  }
  beforeAll(() => {
    const files = IMPURE.map(([text], at) => [`lib/rules/planted${at}.ts`, `${text}\n`])
    const sound = ['lib/rules/sound.ts', 'export const moment = (text: string): number => new Date(text).getTime()\n']
    const outside = ['lib/usecases/planted.ts', 'export const now = (): Date => new Date()\n']
    copy = plantedCopy(Object.fromEntries([...files, sound, outside]))
  })
  afterAll(() => copy.remove())

  it.each(IMPURE.map(([text, says], at) => ({ text, says, at })))('refuses $text', ({ says, at }) => {
    const found = lint(`lib/rules/planted${at}.ts`)
    expect(found.status).toBe(1)
    expect(found.says).toContain(says)
  })

  it('lets a moment be read from text, and a use case read the clock', () => {
    expect(lint('lib/rules/sound.ts')).toMatchObject({ status: 0 })
    expect(lint('lib/usecases/planted.ts')).toMatchObject({ status: 0 })
  })

  it('covers every pure room and the invented cohort', () => {
    const { overrides } = JSON.parse(readFileSync('biome.json', 'utf8')) as { overrides: { includes: string[]; plugins?: string[] }[] }
    const covered = overrides.filter(({ plugins }) => plugins?.includes('.ci/pure.grit')).flatMap(({ includes }) => includes)
    expect(covered.toSorted()).toEqual([...PURE.map((room) => `lib/${room}/**`), 'seed/**'].toSorted())
  })
})
