import { spawnSync } from 'node:child_process'
import { expect, test } from 'vitest'
import { freshUrl } from '../store/freshStore.ts'
import { isMade } from '../store/tables.ts'

test('a clinic is not served with a word for the second factor that nobody knows', () => {
  const url = freshUrl()
  const env = {
    ...process.env,
    DATABASE_URL: url,
    NEXTAUTH_SECRET: 'only-for-tests-only-for-tests-only-for-tests',
    NEXTAUTH_URL: 'https://lowmark.clinic.example',
    LOWMARK_SECOND_FACTOR: 'requird',
  }
  const { status, stderr } = spawnSync(process.execPath, ['--import', 'tsx', 'app/_server/serveClinic.ts'], { env, encoding: 'utf8' })
  expect(status).toBe(1)
  expect(stderr).toBe('Not started: LOWMARK_SECOND_FACTOR "requird" is neither optional nor required.\n')
  expect(isMade(url)).toBe(false)
})
