import { basename } from 'node:path'
import { describe, expect, it } from 'vitest'
import { filesUnder, textOf } from './tree.ts'

const CODE = ['.ts', '.tsx', '.mjs', '.cjs']
const OURS = filesUnder(['lib', 'app', 'seed'], [...CODE, '.css'])
const ALL = filesUnder(['lib', 'app', 'seed', 'tests', 'bench', '.ci', 'prisma'], [...CODE, '.css', '.sql', '.prisma'])

const lines = (path: string) => textOf(path).trimEnd().split('\n').length

/** Words that say nothing about what is in a file. */
const REFUSED_NAMES = /^(utils?|helpers?|misc|common|manager|service)$/i
// Put together here, so that this file does not find itself.
const REFUSED_TEXTS = [
  ['TO', 'DO'],
  ['FIX', 'ME'],
  ['.sk', 'ip('],
  ['.on', 'ly('],
  ['toBe', 'Defined'],
  ['@ts-', 'ignore'],
].map((parts) => parts.join(''))

describe('files', () => {
  it('are read in one look: at most 250 lines, half of them at most 60', () => {
    expect(OURS.length).toBeGreaterThan(300)
    expect(OURS.filter((path) => lines(path) > 250)).toEqual([])
    const sizes = OURS.filter((path) => path.startsWith('lib/'))
      .map(lines)
      .toSorted((a, b) => a - b)
    expect(sizes[Math.floor(sizes.length / 2)]).toBeLessThanOrEqual(60)
    expect(sizes[Math.floor(sizes.length * 0.9)]).toBeLessThanOrEqual(150)
  })

  it('and folders are named by what they answer', () => {
    const words = (path: string) => path.split('/').flatMap((part) => basename(part).split(/[.\-_]|(?=[A-Z])/))
    expect(ALL.filter((path) => words(path).some((word) => REFUSED_NAMES.test(word)))).toEqual([])
    expect(words('lib/dateUtils.ts').some((word) => REFUSED_NAMES.test(word))).toBe(true)
  })

  it.each(REFUSED_TEXTS)('say nowhere %j', (refused) => {
    expect(ALL.filter((path) => textOf(path).includes(refused))).toEqual([])
  })
})
