import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openPseudonym, pseudonymKey, readTrail, showCohort } from '../../../lib/usecases/index.ts'
import { distinct } from '../../../lib/usecases/pseudonyms/cohortByPseudonym.ts'
import { isPseudonym, pseudonyms } from '../../../lib/usecases/pseudonyms/pseudonyms.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'

const KEY = Buffer.from('000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f', 'hex')
const OTHER = Buffer.from('f00102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f', 'hex')

describe('a pseudonym', () => {
  test('is the HMAC-SHA-256 of the number, worked out outside', () => {
    // Python 3, hmac and hashlib: the first 16 bytes as an integer, least place first.
    expect(pseudonyms(KEY).of('P-0001')).toBe('8HT2Y-53CHT-PE2DF')
    expect(pseudonyms(KEY).of('Größe 7')).toBe('6P269-HYYYP-CYPAX')
  })

  test('is another under another key and for another number, and the same each time', () => {
    const [one, other] = [pseudonyms(KEY), pseudonyms(OTHER)]
    const all = Array.from({ length: 2000 }, (_, at) => one.of(`P-${at}`))
    expect(new Set(all).size).toBe(all.length)
    expect(all.filter((pseudonym, at) => other.of(`P-${at}`) === pseudonym)).toEqual([])
    expect(one.of('P-7')).toBe(all[7])
    expect(all.every(isPseudonym)).toBe(true)
  })

  test('has no two signs that look alike, and every other sign as often as any', () => {
    const signs = Array.from({ length: 2000 }, (_, at) => pseudonyms(KEY).of(`P-${at}`).replaceAll('-', '')).join('')
    expect(signs).not.toMatch(/[01BGILOQSUZ]/)
    const counts = [...new Set(signs)].map((sign) => signs.split(sign).length - 1)
    expect(counts).toHaveLength(25)
    // 30,000 signs, 1,200 of each expected with a standard deviation of 34: five of them on either side.
    expect(Math.min(...counts)).toBeGreaterThan(1030)
    expect(Math.max(...counts)).toBeLessThan(1370)
  })

  test('of two patients that is the same shows nobody', () => {
    expect(distinct(['P-1', 'P-2'], () => 'AAAAA-AAAAA-AAAAA')).toMatchObject({ ok: false, kind: 'unavailable' })
    expect(granted(distinct(['P-1', 'P-2'], pseudonyms(KEY).of)).patientIdOf(pseudonyms(KEY).of('P-2'))).toBe('P-2')
  })

  test('of a record that is joined is that of the patient it is read as', () => {
    const joined = pseudonyms(KEY, (id) => (id === 'P-9' ? 'P-1' : id))
    expect(joined.of('P-9')).toBe(pseudonyms(KEY).of('P-1'))
  })
})

describe('the key', () => {
  let folder: string
  let before: string | undefined
  const keyOf = (text: string, mode = 0o600) => {
    const path = join(folder, 'key')
    writeFileSync(path, text)
    chmodSync(path, mode)
    process.env.LOWMARK_PSEUDONYM_KEY_FILE = path
    return pseudonymKey()
  }
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'lowmark-key-'))
    before = process.env.LOWMARK_PSEUDONYM_KEY_FILE
  })
  afterEach(() => {
    rmSync(folder, { recursive: true, force: true })
    if (before === undefined) delete process.env.LOWMARK_PSEUDONYM_KEY_FILE
    else process.env.LOWMARK_PSEUDONYM_KEY_FILE = before
  })

  test('is read from hex or base64', () => {
    for (const text of [KEY.toString('hex'), `${KEY.toString('hex').toUpperCase()}\n`, `${KEY.toString('base64')}\n`]) {
      expect(keyOf(text)).toEqual({ ok: true, key: KEY })
    }
  })

  test.each([
    ['everybody may read', KEY.toString('hex'), 0o604, 'everybody on this machine'],
    ['everybody may write', KEY.toString('hex'), 0o602, 'everybody on this machine'],
    ['is short', KEY.toString('hex').slice(2), 0o600, '31 bytes'],
    ['is no hex and no base64', `${KEY.toString('hex')} and more`, 0o600, 'neither hex nor base64'],
    ['was typed', '0'.repeat(64), 0o600, 'not random'],
    ['is empty', '', 0o600, 'neither hex nor base64'],
    ['is too large', 'ab'.repeat(3000), 0o600, 'too large'],
  ])('that %s is refused, with how to make one and nothing of it', (_, text, mode, says) => {
    const read = keyOf(text, mode)
    const reason = read.ok ? '' : read.reason
    expect(reason).toContain(says)
    expect(reason).toContain('openssl rand -hex 32')
    expect(text === '' || !reason.includes(text.slice(0, 12))).toBe(true)
  })

  test('that is missing or cannot be read is said only where a pseudonym is needed', async () => {
    const { store, dispose } = await freshStore()
    for (const path of [undefined, join(folder, 'none')]) {
      delete process.env.LOWMARK_PSEUDONYM_KEY_FILE
      if (path !== undefined) process.env.LOWMARK_PSEUDONYM_KEY_FILE = path
      const missing = { ok: false, kind: 'unavailable', reason: expect.stringContaining('LOWMARK_PSEUDONYM_KEY_FILE') }
      const query = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 9 } as const
      expect(await showCohort(callOf(store, 'quality'), query)).toMatchObject(missing)
      expect(await openPseudonym(callOf(store, 'quality'), '22222-22222-22222')).toMatchObject(missing)
      expect(await readTrail(callOf(store, 'quality'), null)).toMatchObject(missing)
      expect(await readTrail(callOf(store, 'administrator'), null)).toMatchObject({ ok: true })
      expect(await readTrail(callOf(store, 'physician'), null)).toMatchObject({ ok: true })
    }
    await dispose()
  })
})
