import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import {
  acceptFiles,
  acceptMessage,
  confirmPatient,
  endMerge,
  openHeld,
  proposePatient,
  recheck,
  resolveHeld,
  revokeMapping,
  saveProfile,
} from '../../lib/usecases/index.ts'
import { fileOf, msh, obr, obx, pid } from '../intake/hl7/messages.ts'
import { bytesOf } from '../intake/rows.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { csv, patientRow, valuesOf } from './clinic.ts'
import { changes, GAP, RISEN, RULE, review, risen, seenOf, takeLevel } from './corrections/relapse.ts'
import { callBy, decideAs, takeFrom, waitingIds, waitingReasons } from './held/queue.ts'
import { join } from './merges/joined.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeLevel(store)
  await takeFrom(store, null, [csv('other.csv', [patientRow({ patient_id: 'P2' })])])
})
afterEach(async () => {
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  await dispose()
})

const reasonsAndOwners = () => store.reader.heldQueue().map(({ patientId, reason }) => [patientId, reason])

async function chosen(heldId: number, patientId: string, remember: boolean) {
  granted(await proposePatient(callBy(store, 'ann'), { heldId, patientId, alike: false, remember, reason: 'by telephone' }))
  return granted(await confirmPatient(callBy(store, 'ben'), { heldId }))
}

describe('a correction under the other number of a joined patient', () => {
  const LOWERED = risen({ status: 'corrected', value: '10.5', reported_at: '2026-11-10' })

  beforeEach(async () => {
    await takeFrom(store, 'north', [RISEN])
    await join(store)
    await review(store, RULE)
  })

  test.each(['P1', 'P2'])('sent for %s, where both had the original, comes back to the reviewer', async (patient_id) => {
    await takeFrom(store, 'north', [csv('copy.csv', [risen({ patient_id: 'P2' })])])
    await takeFrom(store, 'north', [csv('correction.csv', [{ ...LOWERED, patient_id }])])
    expect((await seenOf(store, RULE)).current).toEqual([])
    expect((await seenOf(store, GAP)).current).toHaveLength(1)
    expect(changes(store)).toContain(`removed ${RULE}`)
  })

  test('whose original is known by the other number alone is told once a person has filed it', async () => {
    await takeFrom(store, 'north', [csv('correction.csv', [{ ...LOWERED, patient_id: 'P2' }])])
    expect(waitingReasons(store)).toEqual(['correction-before-original'])
    granted(await resolveHeld(callOf(store, 'navigator'), waitingIds(store)[0] ?? 0, 'file', 'the original is of P1'))
    expect((await seenOf(store, RULE)).current).toEqual([])
    expect((await seenOf(store, GAP)).current).toHaveLength(1)
    granted(await endMerge(callOf(store, 'navigator'), { mergeId: 1, reason: 'two people' }))
    expect((await seenOf(store, RULE)).current).toHaveLength(1)
    expect([await seenOf(store, GAP), changes(store)]).toEqual([{ current: [], past: [] }, []])
  })

  test('a later final report for the other number that takes a reviewed finding back is told too', async () => {
    await takeFrom(store, 'north', [csv('again.csv', [risen({ patient_id: 'P2', value: '10.5', reported_at: '2026-11-10' })])])
    expect((await seenOf(store, RULE)).current).toEqual([])
    expect((await seenOf(store, GAP)).current).toHaveLength(1)
  })
})

describe('mappings', () => {
  test('a row that two mappings brought in comes back once, whichever are revoked', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [risen({ patient_id: 'X1', code: 'MP' })])])
    const heldId = waitingIds(store)[0] ?? 0
    granted(await decideAs(store, heldId, { kind: 'code', code: '33358-3' }, { remember: true }))
    await chosen(heldId, 'P1', true)
    expect(valuesOf(store)).toHaveLength(5)
    granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 2, reason: 'another person' }))
    expect(reasonsAndOwners()).toEqual([['X1', 'unknown-patient']])
    granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 1, reason: 'another test' }))
    expect(reasonsAndOwners()).toHaveLength(1)
  })

  test('a row filed for somebody else after its identifier was taken back comes back once', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [risen({ patient_id: 'X1', code: 'MP' })])])
    const heldId = waitingIds(store)[0] ?? 0
    granted(await decideAs(store, heldId, { kind: 'code', code: '33358-3' }, { remember: true }))
    await chosen(heldId, 'P1', true)
    granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 2, reason: 'another person' }))
    await chosen(waitingIds(store)[0] ?? 0, 'P2', true)
    expect(valuesOf(store, 'P2')).toEqual(['36.0'])
    granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 1, reason: 'another test' }))
    expect(valuesOf(store, 'P2')).toEqual([])
    expect(waitingIds(store)).toHaveLength(1)
  })

  test('a reviewed finding that rested on a row taken back comes back to the reviewer', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [risen({ code: 'MP' })])])
    granted(await decideAs(store, waitingIds(store)[0] ?? 0, { kind: 'code', code: '33358-3' }, { remember: true }))
    await review(store, RULE)
    granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 1, reason: 'another test' }))
    expect((await seenOf(store, RULE)).current).toEqual([])
    expect((await seenOf(store, GAP)).current.map(({ says }) => says)).toEqual([
      'Progression by serum M-protein, found since 2026-11-03, was reviewed by a navigator on 2026-11-25. On 2026-11-25 a revoked mapping took it back: serum M-protein of 2026-11-03: 36.0 g/L before, not counted now. What was said or done because of it rests on the earlier report.',
    ])
    expect((await seenOf(store, RULE)).past[0]?.correction).toMatchObject({
      says: expect.stringContaining('Taken back by a revoked mapping of 2026-11-25'),
      reports: [{ now: null }],
    })
  })

  test('a report that counts again because the one after it was taken back makes the finding again', async () => {
    await takeFrom(store, 'south', [csv('s.csv', [risen({})])])
    await review(store, RULE)
    await takeFrom(store, 'north', [csv('r.csv', [risen({ code: 'MP', value: '10.5', status: 'corrected', reported_at: '2026-11-10' })])])
    granted(await decideAs(store, waitingIds(store)[0] ?? 0, { kind: 'code', code: '33358-3' }, { remember: true }))
    expect((await seenOf(store, GAP)).current).toHaveLength(1)
    granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 1, reason: 'another test' }))
    expect((await seenOf(store, RULE)).current).toHaveLength(1)
    expect((await seenOf(store, GAP)).current).toEqual([])
    expect(changes(store).filter((change) => change.includes(RULE))).toEqual([`removed ${RULE}`, `created ${RULE}`])
  })

  test('revoked, nothing of its rows counts in a joined course', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [risen({ patient_id: 'P2', code: 'MP' })])])
    granted(await decideAs(store, waitingIds(store)[0] ?? 0, { kind: 'code', code: '33358-3' }, { remember: true }))
    await join(store)
    expect(valuesOf(store)).toHaveLength(5)
    granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 1, reason: 'another test' }))
    expect(valuesOf(store)).toHaveLength(4)
    expect(store.reader.standing('P1')?.answer).toContain('held-results')
  })
})

describe('a held row of a joined patient', () => {
  test('is shown beside the values of all joined records', async () => {
    await join(store)
    await takeFrom(store, 'north', [csv('r.csv', [risen({ patient_id: 'P2', unit: 'gramm' })])])
    const opened = granted(await openHeld(callOf(store, 'navigator'), waitingIds(store)[0] ?? 0, { code: '', unit: '' }))
    expect(opened.neighbours?.values.map(({ says }) => says)).toEqual(['40 g/L', '10 g/L', '10 g/L', '10 g/L', 'cannot be read'])
  })

  test('proposed before and confirmed after a merge counts in the joined course', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [risen({ patient_id: 'X1' })])])
    const heldId = waitingIds(store)[0] ?? 0
    granted(await proposePatient(callBy(store, 'ann'), { heldId, patientId: 'P2', alike: false, remember: true, reason: 'by telephone' }))
    await join(store)
    granted(await confirmPatient(callBy(store, 'ben'), { heldId }))
    expect(valuesOf(store)).toHaveLength(5)
    expect((await seenOf(store, RULE)).current).toHaveLength(1)
  })

  test('filed for whom its source means is logged with that patient', async () => {
    await takeFrom(store, 'north', [
      csv('r.csv', [risen({ patient_id: 'X1' }), risen({ patient_id: 'X1', accession: 'S', collected_at: '2026-11-05' })]),
    ])
    const [first = 0, second = 0] = waitingIds(store)
    await chosen(first, 'P2', true)
    granted(await resolveHeld(callOf(store, 'navigator'), second, 'file', 'known by now'))
    const { rows } = store.reader.trailPage({ actor: null, limit: 1, offset: 0 })
    expect(JSON.stringify(rows[0])).toContain('P2')
  })
})

test.each([false, true])(
  'a code decided for a row (remembered: %s) takes the unit that the profile of its source says of what it means',
  async (remember) => {
    granted(await saveProfile(callOf(store), { given: { source: 'north', units: { '33358-3': 'g/dL' } }, reason: 'as its manual says' }))
    await takeFrom(store, 'north', [csv('r.csv', [risen({ code: 'MP', unit: '', value: '3.6' })])])
    granted(await decideAs(store, waitingIds(store)[0] ?? 0, { kind: 'code', code: '33358-3' }, { remember }))
    expect([valuesOf(store).at(-1), waitingReasons(store)]).toEqual(['3.6', []])
    expect((await seenOf(store, RULE)).current).toHaveLength(1)
  },
)

test('a message that was held, mapped and sent again is filed once, and comes back once when the mapping is revoked', async () => {
  const local = [obr({ 3: 'M', 7: '20261103' }), obx({ 3: 'MP^m^L', 5: '36.0' })]
  const message = fileOf(msh({ 3: 'LAB', 4: 'NORTH' }), pid(), ...local, pid({ 3: 'P2^^^CLINIC^MR' }), ...local)
  const send = async () => granted(await acceptMessage(callOf(store), bytesOf(message), 'north'))
  await send()
  expect(waitingReasons(store)).toEqual(['unknown-code', 'unknown-code'])
  granted(await decideAs(store, waitingIds(store)[0] ?? 0, { kind: 'code', code: '33358-3' }, { alike: true, remember: true }))
  await send()
  await takeFrom(store, 'north', [{ name: 'again.hl7', bytes: bytesOf(message) }])
  expect([valuesOf(store).length, valuesOf(store, 'P2')]).toEqual([5, ['36.0']])
  await join(store)
  expect(valuesOf(store)).toHaveLength(5)
  granted(await revokeMapping(callOf(store, 'navigator'), { mappingId: 1, reason: 'another test' }))
  expect([valuesOf(store).length, waitingReasons(store)]).toEqual([4, ['unknown-code', 'unknown-code']])
})

test('rows of one patient under two numbers in two parts of a file: a correction before its original is filed with it', async () => {
  await takeFrom(store, 'north', [csv('first.csv', [risen({ patient_id: 'X1', accession: 'first' })])])
  await chosen(waitingIds(store)[0] ?? 0, 'P1', true)
  const others = Array.from({ length: 1999 }, (_, at) => risen({ patient_id: 'P2', accession: `O${at}`, code: '718-7', value: '120' }))
  const lowered = risen({ patient_id: 'X1', status: 'corrected', value: '10.5', reported_at: '2026-11-10' })
  const earlier = risen({ patient_id: 'X1', accession: 'second', collected_at: '2026-10-01', value: '10.0' })
  const file = csv('two.csv', [earlier, lowered, ...others, risen()])
  const [tried] = granted(await acceptFiles(callOf(store), [file], { source: 'north', dryRun: true }))
  const [report] = await takeFrom(store, 'north', [file])
  expect(report).toMatchObject({ rows: 2002, filed: 2001, held: 1, released: 1 })
  expect(tried).toMatchObject({ rows: 2002, filed: 2001, held: 1, released: 1 })
  expect(waitingIds(store)).toEqual([])
  expect(valuesOf(store).at(-1)).toBe('10.5')
}, 60_000)
