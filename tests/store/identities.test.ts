import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'
import { CALL } from './samples.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let db: Outside

const LATER = '2026-11-25T11:00:00.000Z'
const IDENTITY = { issuer: 'https://sign-on.example', subject: 'Abc' }

type Change = Parameters<Store['record']>[1]
const change = <T>(run: (tx: Parameters<Change>[0]) => T): Promise<T> =>
  fresh.store.record(CALL, (tx) => ({ value: run(tx), events: [{ action: 'sign-out' }] }))
const join = (accountId: number, more: Partial<typeof IDENTITY> = {}) =>
  change((tx) => tx.insertIdentity({ accountId, ...IDENTITY, ...more, madeBy: 'n', madeAt: CALL.now }))

beforeEach(async () => {
  fresh = await freshStore()
  const account = { role: 'navigator', createdAt: CALL.now, codeHash: 'c', codeExpiresAt: LATER } as const
  await change((tx) => ['n', 'm'].map((name) => tx.insertAccount({ ...account, name })))
  await join(1)
  db = fromOutside(fresh.url)
})
afterEach(async () => {
  db.close()
  await fresh.dispose()
})

test('an account is found by issuer and subject, both told apart by case', () => {
  const { reader } = fresh.store
  expect(reader.accountOfIdentity(IDENTITY)?.name).toBe('n')
  expect(reader.identityOf(1)).toEqual({ id: 1, accountId: 1, ...IDENTITY, madeBy: 'n', madeAt: CALL.now })
  expect(reader.identityOf(2)).toBeNull()
  for (const other of [{ subject: 'abc' }, { subject: 'Abc ' }, { issuer: 'https://SIGN-ON.example' }, { issuer: 'https://sign-on.example/' }]) {
    expect(reader.accountOfIdentity({ ...IDENTITY, ...other })).toBeNull()
  }
})

test('one identity has one account, and one account one identity, while they are in force', async () => {
  await expect(join(2)).rejects.toThrow(refusedBy(['unique']))
  await expect(join(1, { subject: 'another' })).rejects.toThrow(refusedBy(['unique']))
  await change((tx) => tx.endIdentity(1, 'admin', LATER))
  expect(fresh.store.reader.accountOfIdentity(IDENTITY)).toBeNull()
  await join(2)
  await join(1, { subject: 'another' })
  expect(fresh.store.reader.accountOfIdentity(IDENTITY)?.name).toBe('m')
  expect(db.all('SELECT account_id, ended_by FROM account_identity ORDER BY id')).toEqual([
    { account_id: 1, ended_by: 'admin' },
    { account_id: 2, ended_by: null },
    { account_id: 1, ended_by: null },
  ])
})

test.each([
  ['another account', 'UPDATE account_identity SET account_id = 2', /never changed/],
  ['another subject', "UPDATE account_identity SET subject = 'x'", /never changed/],
  [
    'an end undone',
    `UPDATE account_identity SET ended_by = 'a', ended_at = '${LATER}'; UPDATE account_identity SET ended_by = NULL, ended_at = NULL`,
    /never changed/,
  ],
  ['an end by nobody', `UPDATE account_identity SET ended_at = '${LATER}'`, refusedBy(['check'])],
  ['no row', 'DELETE FROM account_identity', /never removed/],
  ['a row in its place', 'INSERT OR REPLACE INTO account_identity SELECT * FROM account_identity', /follows the last one/],
  ['an empty subject', "INSERT INTO account_identity VALUES (2, 2, 'i', '', 'n', '2026-11-25T10:00:00Z', NULL, NULL)", refusedBy(['check'])],
  ['nobody', "INSERT INTO account_identity VALUES (2, 9, 'i', 's', 'n', '2026-11-25T10:00:00Z', NULL, NULL)", refusedBy(['foreign key'])],
])('the database itself refuses %s', (_, sql, says) => {
  expect(() => db.exec(sql)).toThrow(says)
})
