import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { revokeMapping } from '../../lib/usecases/index.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { csv, patientRow, resultRow } from '../usecases/clinic.ts'
import { decideAs, takeFrom } from '../usecases/held/queue.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'

let store: Store
let db: Outside
let dispose: () => Promise<void>
beforeEach(async () => {
  const fresh = await freshStore()
  ;({ store } = fresh)
  db = fromOutside(fresh.url)
  dispose = async () => {
    db.close()
    await fresh.dispose()
  }
  await takeFrom(store, 'north', [csv('p.csv', [patientRow()]), csv('r.csv', [resultRow({ code: 'HB', unit: 'g/dL' }), resultRow({ code: 'L2' })])])
  granted(await decideAs(store, 1, { kind: 'code', code: '718-7' }, { remember: true }))
  granted(await revokeMapping(callOf(store), { mappingId: 1, reason: 'a test of the store' }))
})
afterEach(() => dispose())

describe('the database itself refuses', () => {
  const CHOICE = `INSERT INTO held_choice (held_id, alike, remember, patient_id, reason, proposed_by, proposed_at)
    VALUES (2, 0, 0, 'P1', 'a test', 'ann', '2026-11-25T10:00:00.000Z')`

  test.each([
    ['another text of a held row', "UPDATE held_row SET fields = '{}' WHERE id = 2", 'never changed'],
    ['a decided row decided otherwise', "UPDATE held_row SET decision = 'refuse' WHERE id = 1", 'never changed'],
    [
      'a decided row open again',
      'UPDATE held_row SET resolved_at = NULL, resolved_by = NULL, decision = NULL, decision_reason = NULL WHERE id = 1',
      'never changed',
    ],
    ['decided columns that are no JSON', "UPDATE held_row SET decided = 'x' WHERE id = 2", refusedBy(['check'])],
    ['a version taken back that counts', 'UPDATE result SET current = 1', 'never counts again'],
    ['a version no longer taken back', 'DELETE FROM version_taken_back', 'stays so'],
    ['a row no longer taken back', 'DELETE FROM mapping_return', 'never forgotten'],
    ['two choices of one row at once', `${CHOICE}; ${CHOICE}`, refusedBy(['unique'])],
    [
      'a choice confirmed by who proposed it',
      `${CHOICE}; UPDATE held_choice SET decision = 'confirmed', decided_by = 'ANN', decided_at = proposed_at`,
      refusedBy(['check']),
    ],
    [
      'a choice declined without a reason',
      `${CHOICE}; UPDATE held_choice SET decision = 'declined', decided_by = 'ben', decided_at = proposed_at`,
      refusedBy(['check']),
    ],
    ['another patient of a choice', `${CHOICE}; UPDATE held_choice SET patient_id = 'P2'`, 'never changed'],
    ['a choice removed', `${CHOICE}; DELETE FROM held_choice`, 'never removed'],
  ])('%s', (_, sql, says) => {
    expect(() => db.exec(sql)).toThrow(says)
  })
})

test('what was taken back stays stored, is no version that counts, and is decided by no more', () => {
  const [version] = store.reader.versionsOfPatient('P1')
  expect(store.reader.versionsOf(version?.identity ?? '')).toMatchObject([{ takenBack: true, current: false, result: { code: '718-7' } }])
  expect([store.reader.mappingReach(1), store.reader.rowsOfMapping(1).length]).toEqual([{ rows: 0, patients: 0 }, 1])
})
