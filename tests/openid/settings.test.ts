import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, describe, expect, test } from 'vitest'
import { readOpenIdSettings } from '../../app/_server/openIdSettings.ts'
import { isPrivateAddress } from '../../app/_server/privateAddress.ts'
import { PROVIDER_REFUSALS } from '../../lib/trail/index.ts'
import { textOf } from '../house/tree.ts'
import { freshUrl } from '../store/freshStore.ts'

const folder = mkdtempSync(join(tmpdir(), 'lowmark-settings-'))
const secretFile = join(folder, 'secret')
writeFileSync(secretFile, 'kept in a file\n')
writeFileSync(join(folder, 'empty'), '\n')
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const ALL = {
  LOWMARK_OIDC_ISSUER: 'https://sign-on.clinic.example/realm',
  LOWMARK_OIDC_CLIENT_ID: 'lowmark',
  LOWMARK_OIDC_CLIENT_SECRET_FILE: secretFile,
  LOWMARK_OIDC_NAME: 'Clinic account',
}
type Settings = Partial<Record<keyof typeof ALL | 'LOWMARK_OIDC_ALGORITHM', string>>

function read(settings: Settings) {
  Object.assign(process.env, settings)
  return readOpenIdSettings()
}

afterEach(() => {
  for (const name of [...Object.keys(ALL), 'LOWMARK_OIDC_ALGORITHM']) delete process.env[name]
})

describe('the settings of single sign-on', () => {
  test('all of them, or none', () => {
    expect(read({})).toEqual({ settings: null })
    expect(read(ALL)).toEqual({
      settings: {
        issuer: 'https://sign-on.clinic.example/realm',
        clientId: 'lowmark',
        clientSecret: 'kept in a file',
        name: 'Clinic account',
        algorithm: 'RS256',
      },
    })
  })

  test.each(Object.keys(ALL))('all but %s are refused, and it is named', (missing) => {
    expect(read({ ...ALL, [missing]: '' })).toEqual({ problem: `single sign-on takes all of its settings or none, and ${missing} is missing.` })
  })

  test.each<[string, Settings, RegExp]>([
    [
      'an algorithm alone',
      Object.fromEntries([...Object.keys(ALL).map((name) => [name, '']), ['LOWMARK_OIDC_ALGORITHM', 'RS256']]),
      /all of its settings/,
    ],
    ['no address', { LOWMARK_OIDC_ISSUER: 'sign-on' }, /is not an address/],
    ['no TLS', { LOWMARK_OIDC_ISSUER: 'http://sign-on.clinic.example' }, /must begin with https/],
    ['a query', { LOWMARK_OIDC_ISSUER: 'https://sign-on.clinic.example/?a=b' }, /must not have a query/],
    ['no algorithm at all', { LOWMARK_OIDC_ALGORITHM: 'none' }, /takes one of RS256/],
    ['the client secret as a key', { LOWMARK_OIDC_ALGORITHM: 'HS256' }, /takes one of RS256/],
    ['a file that is not there', { LOWMARK_OIDC_CLIENT_SECRET_FILE: join(folder, 'nowhere') }, /cannot be read \(ENOENT\)/],
    ['an empty file', { LOWMARK_OIDC_CLIENT_SECRET_FILE: join(folder, 'empty') }, /is empty/],
    ['an overlong name', { LOWMARK_OIDC_NAME: 'n'.repeat(41) }, /more than 40 characters/],
  ])('%s', (_, change, says) => {
    expect(read({ ...ALL, ...change })).toEqual({ problem: expect.stringMatching(says) })
  })

  test('the clinic start refuses with the reason, before it opens anything', () => {
    const env = {
      ...process.env,
      DATABASE_URL: freshUrl(),
      NEXTAUTH_SECRET: 'a secret of the tests that is long enough',
      NEXTAUTH_URL: 'https://lowmark.clinic.example',
      LOWMARK_OIDC_ISSUER: ALL.LOWMARK_OIDC_ISSUER,
    }
    const done = spawnSync(process.execPath, ['--import', 'tsx', 'app/_server/serveClinic.ts'], { env, encoding: 'utf8' })
    expect([done.status, done.stdout]).toEqual([1, ''])
    expect(done.stderr).toMatch(/^Not started: single sign-on takes all of its settings or none, and LOWMARK_OIDC_CLIENT_ID, .* is missing\.\n$/)
  })
})

test.each([
  ['https://elsewhere.example/x', true],
  ['http://127.0.0.1:8080', true],
  ['http://localhost', true],
  ['http://[::1]:9', true],
  ['http://127.0.0.1.elsewhere.example', false],
  ['http://elsewhere.example', false],
  ['ftp://127.0.0.1', false],
  ['nowhere', false],
  [undefined, false],
])('%s is private: %s', (address, answer) => {
  expect(isPrivateAddress(address)).toBe(answer)
})

test('docs/access.md has every word for a refusal', () => {
  const access = textOf('docs/access.md')
  expect(PROVIDER_REFUSALS.filter((word) => !access.includes(`\`${word}\``))).toEqual([])
})
