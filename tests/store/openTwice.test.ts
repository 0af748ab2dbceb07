import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { expect, test } from 'vitest'
import { openStore } from '../../lib/store/index.ts'
import { ownFolder } from '../faults/damagedClinic.ts'
import { callOf } from '../usecases/accounts/persons.ts'

const OTHER_PROGRAM = `const db = new (require('better-sqlite3'))(process.argv[1]); db.prepare('SELECT count(*) FROM trail').get(); db.close()`

test('a database opened twice by one program is still open for the next that closes it: its log stays', async () => {
  const { folder, remove } = ownFolder()
  const path = `${folder}/lowmark.db`
  const [first, second] = [await openStore(`file:${path}`), await openStore(`file:${path}`)]
  try {
    await first.record(callOf(first), () => ({ value: null, events: [{ action: 'sign-out' }] }))
    execFileSync(process.execPath, ['-e', OTHER_PROGRAM, path])
    expect(existsSync(`${path}-wal`)).toBe(true)
    expect(second.reader.verifyTrail()).toMatchObject({ rows: 1, firstBad: null })
  } finally {
    await first.close()
    await second.close()
  }
  expect(existsSync(`${path}-wal`)).toBe(false)
  remove()
})
