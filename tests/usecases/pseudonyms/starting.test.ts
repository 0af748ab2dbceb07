import { spawnSync } from 'node:child_process'
import { chmodSync, existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'

const folder = mkdtempSync(join(tmpdir(), 'lowmark-start-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function start(keyFile: string | undefined): { status: number | null; said: string } {
  const { LOWMARK_PSEUDONYM_KEY_FILE: _, ...rest } = process.env
  const env = {
    ...rest,
    DATABASE_URL: `file:${join(folder, 'clinic.db')}`,
    NEXTAUTH_SECRET: 'only-for-tests-only-for-tests-only-for-tests',
    NEXTAUTH_URL: 'http://127.0.0.1:3999',
    ...(keyFile === undefined ? {} : { LOWMARK_PSEUDONYM_KEY_FILE: keyFile }),
  }
  const ended = spawnSync(process.execPath, ['--import', 'tsx', 'app/_server/serveClinic.ts'], { env, encoding: 'utf8', timeout: 110_000 })
  return { status: ended.status, said: ended.stderr }
}

test('the start for a clinic refuses without a key that is closed to others, says how to make one, and makes no database', {
  timeout: 240_000,
}, () => {
  const missing = start(undefined)
  expect(missing.status).toBe(1)
  expect(missing.said).toMatch(/^Not started: the setting LOWMARK_PSEUDONYM_KEY_FILE is missing .*openssl rand -hex 32/)

  const open = join(folder, 'open-to-all')
  const key = '0123456789abcdef'.repeat(4)
  writeFileSync(open, key)
  chmodSync(open, 0o644)
  const refused = start(open)
  expect(refused.status).toBe(1)
  expect(refused.said).toMatch(/^Not started: .*everybody on this machine.*chmod 600/)
  expect(refused.said).not.toContain(key.slice(0, 16))
  expect(existsSync(join(folder, 'clinic.db'))).toBe(false)
})
