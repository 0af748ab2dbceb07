import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { NewMerge, Store } from '../../lib/store/index.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'
import { addPatient, CALL, newResult } from './samples.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let db: Outside
beforeEach(async () => {
  fresh = await freshStore()
  await fresh.store.record(CALL, (tx) => {
    for (const id of ['P1', 'P2', 'P3', 'P4']) tx.insertResultVersion(newResult(id, addPatient(tx, id), '2026-01-01'), true)
    return { value: null, events: [{ action: 'patient-opened', patientId: 'P1' }] }
  })
  db = fromOutside(fresh.url)
})
afterEach(async () => {
  db.close()
  await fresh.dispose()
})

const PROPOSAL: NewMerge = {
  fromId: 'P2',
  intoId: 'P1',
  proposedBy: 'A nurse',
  proposedAt: CALL.now,
  reason: 'One person: same name and day of birth',
  identitySha256: 'a'.repeat(64),
}
const LATER = '2026-11-25T11:00:00.000Z'

type Change = Parameters<Store['record']>[1]
const change = <T>(run: (tx: Parameters<Change>[0]) => T): Promise<T> =>
  fresh.store.record(CALL, (tx) => ({ value: run(tx), events: [{ action: 'patient-opened', patientId: 'P1' }] }))

const propose = (more: Partial<NewMerge> = {}) => change((tx) => tx.insertMerge({ ...PROPOSAL, ...more }))
const decide = (id: number, decision: 'confirmed' | 'declined' = 'confirmed', by = 'a physician') =>
  change((tx) => tx.decideMerge({ id, decision, by, at: LATER, reason: decision === 'declined' ? 'Two people' : null }))
const end = (id: number) => change((tx) => tx.endMerge({ id, by: 'a physician', at: LATER, reason: 'Two people' }))

test('a merge comes back as it was proposed, decided and ended, numbered 1, 2, 3', async () => {
  expect(await propose()).toBe(1)
  expect(await decide(1, 'declined')).toBe(true)
  expect(await propose()).toBe(2)
  expect([await decide(2), await end(2)]).toEqual([true, true])
  const undecided = { ...PROPOSAL, endedBy: null, endedAt: null, endReason: null }
  expect(fresh.store.reader.merges()).toEqual([
    { id: 1, ...undecided, decision: 'declined', decidedBy: 'a physician', decidedAt: LATER, decisionReason: 'Two people' },
    {
      id: 2,
      ...undecided,
      decision: 'confirmed',
      decidedBy: 'a physician',
      decidedAt: LATER,
      decisionReason: null,
      endedBy: 'a physician',
      endedAt: LATER,
      endReason: 'Two people',
    },
  ])
  expect(fresh.store.reader.mergesOf('P1')).toEqual(fresh.store.reader.mergesOf('P2'))
  expect([fresh.store.reader.merge(3), fresh.store.reader.mergesOf('P3')]).toEqual([null, []])
})

test('in force, both are read by either identifier, and one of them is nobody of its own', async () => {
  const { reader } = fresh.store
  const alone = reader.loadHistory('P2')
  await propose()
  expect(reader.loadHistory('P2')).toEqual(alone)
  await decide(1)
  expect([reader.keptId('P2'), reader.keptId('P1'), reader.joinedIds('P1'), reader.patientIds()]).toEqual(['P1', 'P1', ['P2'], ['P1', 'P3', 'P4']])
  expect(reader.followedPatientIds()).toEqual(['P1', 'P3', 'P4'])
  expect(reader.loadHistory('P2')).toEqual(reader.loadHistory('P1'))
  expect(reader.loadHistory('P1')?.history.patient.id).toBe('P1')
  const versions = { today: '2026-11-25', rulesVersion: '1', planVersion: '1' } as unknown as Parameters<typeof reader.staleStandings>[0]
  expect(reader.staleStandings(versions)).toEqual(['P1', 'P3', 'P4'])
  await end(1)
  expect([reader.loadHistory('P2'), reader.patientIds()]).toEqual([alone, ['P1', 'P2', 'P3', 'P4']])
})

test('a change of the joined record counts in both, of the kept one in its own alone', async () => {
  await propose()
  await decide(1)
  const revisions = () => ['P1', 'P2'].map((id) => fresh.store.reader.patient(id)?.revision)
  await change((tx) => tx.bumpRevision('P2'))
  expect(revisions()).toEqual([1, 1])
  await change((tx) => tx.bumpRevision('P1'))
  expect(revisions()).toEqual([2, 1])
  await expect(change((tx) => tx.bumpRevision('P9'))).rejects.toThrow('There is no patient P9')
})

test('a merge is decided once and ended once', async () => {
  await propose()
  expect(await end(1)).toBe(false)
  expect([await decide(1), await decide(1, 'declined'), await end(1), await end(1)]).toEqual([true, false, true, false])
})

describe('the database itself refuses', () => {
  test.each([
    ['that the proposer confirms, however the name is written', () => decide(1, 'confirmed', 'A NURSE'), refusedBy(['check'])],
    ['the same two records twice', () => propose({ fromId: 'P1', intoId: 'P2' }), refusedBy(['unique'])],
    ['a record joined to itself', () => propose({ fromId: 'P3', intoId: 'P3' }), refusedBy(['check'])],
    ['a record of nobody', () => propose({ intoId: 'P9' }), refusedBy(['foreign key'])],
    ['a merge without a reason', () => propose({ fromId: 'P3', reason: '' }), refusedBy(['check'])],
  ])('%s', async (_, run, reason) => {
    await propose()
    await expect(run()).rejects.toThrow(reason)
  })

  test.each([
    ['a chain behind', { fromId: 'P3', intoId: 'P2' }],
    ['a chain before', { fromId: 'P1', intoId: 'P3' }],
    ['a circle', { fromId: 'P1', intoId: 'P2' }],
  ])('%s', async (_, more) => {
    await propose()
    await decide(1)
    await propose(more)
    await expect(decide(2)).rejects.toThrow('merges make no chain and no circle')
  })

  test('two places for one record', async () => {
    await propose()
    await decide(1)
    await propose({ intoId: 'P3' })
    await expect(decide(2)).rejects.toThrow(refusedBy(['unique']))
  })

  test.each([
    ['changed', "UPDATE patient_merge SET into_id = 'P3' WHERE id = 1", /a merge is never changed/],
    ['removed', 'DELETE FROM patient_merge WHERE id = 1', /a merge is never removed/],
    ['decided again', "UPDATE patient_merge SET decision = 'declined' WHERE id = 1", /never decided again/],
    ['taken back to waiting', 'UPDATE patient_merge SET decision = NULL, decided_by = NULL, decided_at = NULL WHERE id = 1', /never decided again/],
    ['brought back after its end', 'UPDATE patient_merge SET ended_at = NULL, ended_by = NULL, end_reason = NULL WHERE id = 1', /ended once/],
    [
      'replaced',
      `INSERT OR REPLACE INTO patient_merge (id, from_id, into_id, proposed_by, proposed_at, reason, identity_sha256)
       VALUES (1, 'P3', 'P4', 'x', '2026-11-25T10:00:00.000Z', 'because', '${'b'.repeat(64)}')`,
      /proposed first/,
    ],
    [
      'confirmed as it is proposed',
      `INSERT INTO patient_merge (id, from_id, into_id, proposed_by, proposed_at, reason, identity_sha256, decision, decided_by, decided_at)
       VALUES (2, 'P3', 'P4', 'x', '2026-11-25T10:00:00.000Z', 'because', '${'b'.repeat(64)}', 'confirmed', 'y', '2026-11-25T10:00:00.000Z')`,
      /proposed first/,
    ],
  ])('that one is %s', async (_, sql, reason) => {
    await propose()
    await decide(1)
    await end(1)
    const before = fresh.store.reader.merges()
    expect(() => db.exec(sql)).toThrow(reason)
    expect(fresh.store.reader.merges()).toEqual(before)
  })
})
