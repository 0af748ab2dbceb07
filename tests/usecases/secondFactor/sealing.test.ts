import { existsSync, readFileSync } from 'node:fs'
import { Secret } from 'otpauth'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { readOwnAccount } from '../../../lib/usecases/index.ts'
import { seal, unseal } from '../../../lib/usecases/secondFactor/seal.ts'
import { freshStore } from '../../store/freshStore.ts'
import { fromOutside } from '../../store/outside.ts'
import { refusedBy } from '../../store/refusals.ts'
import { askOutside, tableNames } from '../../store/tables.ts'
import { isOnServer } from '../../store/testServer.ts'
import { granted } from '../accounts/persons.ts'
import { codeAt, type Device, personWithDevice, tryAt } from './device.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let nurse: Device
beforeEach(async () => {
  vi.stubEnv('NEXTAUTH_SECRET', 'only for these tests, only for these tests')
  fresh = await freshStore()
  nurse = await personWithDevice(fresh.store)
})
afterEach(async () => {
  vi.unstubAllEnvs()
  await fresh.dispose()
})

type Cells = Readonly<Record<string, unknown>>
const valuesIn = (row: Cells): Buffer[] => Object.values(row).map((value) => (Buffer.isBuffer(value) ? value : Buffer.from(`${value}\n`)))

/** Every byte the database has on the disk; of the server's, which are not its own alone, every value it keeps. */
function bytesOf(url: string): Buffer {
  if (isOnServer(url))
    return askOutside(url, (db) => Buffer.concat(tableNames(db).flatMap((name) => db.all<Cells>(`SELECT * FROM ${name}`).flatMap(valuesIn))))
  const path = url.slice('file:'.length)
  return Buffer.concat([path, `${path}-wal`].filter((file) => existsSync(file)).map((file) => readFileSync(file)))
}

test('neither the secret nor a recovery code stands in the database, in any spelling; what is kept of them does', () => {
  const bytes = bytesOf(fresh.url)
  const { sealed } = fresh.store.reader.secondFactor(fresh.store.reader.account('nurse')?.id ?? 0) ?? {}
  expect(bytes.includes(sealed ?? 'nothing')).toBe(true)
  const raw = Buffer.from(Secret.fromBase32(nurse.secret).bytes)
  const spelt = [raw, nurse.secret, nurse.secret.toLowerCase(), raw.toString('hex'), raw.toString('base64'), raw.toString('base64url')]
  for (const secret of spelt) expect(bytes.includes(secret)).toBe(false)
  expect(nurse.codes).toHaveLength(10)
  for (const code of nurse.codes) for (const text of [code, code.replaceAll('-', '')]) expect(bytes.includes(text)).toBe(false)
})

test('a seal opens only as what it was sealed about, under the same secret, unchanged', () => {
  const sealed = seal('a secret', 'account 1')
  expect(unseal(sealed, 'account 1')).toBe('a secret')
  expect(seal('a secret', 'account 1')).not.toBe(sealed)
  expect(unseal(sealed, 'account 2')).toBe(null)
  for (let at = 3; at < sealed.length; at++) {
    const other = sealed[at] === 'A' ? 'Q' : 'A'
    const changed = `${sealed.slice(0, at)}${other}${sealed.slice(at + 1)}`
    // The last character of a piece may hold bits that mean nothing.
    if (Buffer.from(changed.split('.').at(-1) ?? '', 'base64url').equals(Buffer.from(sealed.split('.').at(-1) ?? '', 'base64url'))) continue
    expect(unseal(changed, 'account 1')).toBe(null)
  }
  for (const broken of ['', 'v1', 'v1...', 'v2.a.b.c', `${sealed.split('.').slice(0, 2).join('.')}..${sealed.split('.')[3]}`])
    expect(unseal(broken, 'account 1')).toBe(null)
  vi.stubEnv('NEXTAUTH_SECRET', 'another secret of the same length, to be sure')
  expect(unseal(sealed, 'account 1')).toBe(null)
  vi.stubEnv('NEXTAUTH_SECRET', '')
  expect(() => seal('a secret', 'account 1')).toThrow(/NEXTAUTH_SECRET is missing/)
})

test("one account's sealed secret opens for no other account", async () => {
  const other = await personWithDevice(fresh.store, 'other')
  const db = fromOutside(fresh.url)
  db.exec('UPDATE second_factor SET sealed = (SELECT sealed FROM second_factor WHERE account_id = 2), last_step = 1 WHERE account_id = 1')
  db.close()
  expect((await tryAt(fresh.store, 60, { code: codeAt(other.secret, 60) })).ok).toBe(false)
  expect((await tryAt(fresh.store, 60, { name: 'other', code: codeAt(other.secret, 60) })).ok).toBe(true)
})

test('after NEXTAUTH_SECRET changed no code of the app counts, recovery codes do, and the person is told', async () => {
  vi.stubEnv('NEXTAUTH_SECRET', 'another secret, of the clinic that moved house')
  expect((await tryAt(fresh.store, 60, { code: codeAt(nurse.secret, 60) })).ok).toBe(false)
  expect((await tryAt(fresh.store, 60)).ok).toBe(false)
  expect((await tryAt(fresh.store, 60, { code: nurse.codes[0] ?? '' })).ok).toBe(true)
  expect(granted(await readOwnAccount(nurse.call)).secondFactor).toMatchObject({ isOn: true, isReadable: false, codesLeft: 9 })
})

test('the database itself lets no code count twice and no recovery code come back', () => {
  const db = fromOutside(fresh.url)
  expect(() => db.exec('UPDATE second_factor SET last_step = last_step')).toThrow(/a code counts once/)
  expect(() => db.exec('UPDATE second_factor SET last_step = last_step - 1')).toThrow(/a code counts once/)
  expect(() => db.exec('UPDATE second_factor SET last_step = NULL')).toThrow(refusedBy(['check']))
  db.exec("UPDATE recovery_code SET used_at = '2026-11-25T10:00:00.000Z'")
  expect(() => db.exec('UPDATE recovery_code SET used_at = NULL')).toThrow(/a recovery code counts once/)
  expect(() => db.exec("UPDATE session SET means = 'nothing'")).toThrow(refusedBy(['check']))
  db.close()
})
