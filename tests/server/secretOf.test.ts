import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { secretOf } from '../../app/_server/secretOf.ts'

const SECRET = 'only-for-tests-only-for-tests-only-for-tests'

let folder = ''
let file = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lowmark-secret-'))
  file = join(folder, 'secret')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

function keep(text: string, mode = 0o400): void {
  writeFileSync(file, text)
  chmodSync(file, mode)
}

test('comes from the setting, or from the file it names, whose last line end is none of it', () => {
  expect(secretOf({ NEXTAUTH_SECRET: SECRET })).toBe(SECRET)
  keep(`${SECRET}\n`)
  expect(secretOf({ NEXTAUTH_SECRET_FILE: file, NEXTAUTH_SECRET: '' })).toBe(SECRET)
})

test.each([
  ['none', () => ({}), 'NEXTAUTH_SECRET or NEXTAUTH_SECRET_FILE is missing'],
  ['two', () => ({ NEXTAUTH_SECRET: SECRET, NEXTAUTH_SECRET_FILE: file }), 'are both set'],
  ['a short one', () => ({ NEXTAUTH_SECRET: SECRET.slice(0, 31) }), 'has 31 characters; it needs at least 32'],
  ['a file that is not there', () => ({ NEXTAUTH_SECRET_FILE: join(folder, 'gone') }), 'cannot be read'],
])('%s: refused with what to do', (_, settings, says) => {
  expect(() => secretOf(settings())).toThrow(says)
})

test('a file that everybody can read is refused, and so is one that holds too little; neither is repeated', () => {
  const said = (): string => {
    try {
      return secretOf({ NEXTAUTH_SECRET_FILE: file })
    } catch (error) {
      return error instanceof Error ? error.message : ''
    }
  }
  keep(SECRET, 0o444)
  expect(said()).toContain('can be read by everybody')
  expect(said()).not.toContain(SECRET)
  rmSync(file)
  keep('short-and-secret')
  expect(said()).toContain('has 16 characters')
  expect(said()).not.toContain('short-and-secret')
})
