import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { compareHeld, confirmPatient, declinePatient, proposePatient, recheck } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { refusedBy } from '../../store/refusals.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { csv, patientRow, resultRow, valuesOf } from '../clinic.ts'
import { callBy, takeFrom, waitingIds, waitingReasons } from './queue.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeFrom(store, null, [csv('patients.csv', [patientRow({ family_name: 'Alder', given_name: 'Ann' }), patientRow({ patient_id: 'P2' })])])
})
afterEach(async () => {
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  await dispose()
})

const propose = (by: string, wish = {}) =>
  proposePatient(callBy(store, by), { heldId: 1, patientId: 'P1', alike: true, remember: true, reason: 'the same person, by telephone', ...wish })

describe('an unknown identifier', () => {
  beforeEach(async () => {
    await takeFrom(store, 'north', [csv('r.csv', [resultRow({ patient_id: 'X1' }), resultRow({ patient_id: 'X1', accession: 'A2', value: '15' })])])
  })

  test('one person proposes, nothing is filed; another confirms, all alike are filed and later files are read so', async () => {
    granted(await propose('ann'))
    expect([waitingIds(store), valuesOf(store)]).toEqual([[1, 2], []])
    const confirmed = granted(await confirmPatient(callBy(store, 'ben', 'physician'), { heldId: 1 }))
    expect(confirmed).toMatchObject({ done: 2, mappingId: 1 })
    expect([waitingIds(store), valuesOf(store)]).toEqual([[], ['14.2', '15']])
    expect(store.reader.mapping(1)).toMatchObject({ kind: 'patient', received: 'X1', meaning: 'P1', madeBy: 'ann', confirmedBy: 'ben' })
    const [later] = await takeFrom(store, 'north', [csv('later.csv', [resultRow({ patient_id: 'X1', accession: 'A3' })])])
    expect(later?.filed).toBe(1)
    expect(logged(store).map(({ action }) => action)).toEqual(
      expect.arrayContaining(['held-patient-proposed', 'held-patient-confirmed', 'mapping-decided']),
    )
    expect(await confirmPatient(callBy(store, 'kim'), { heldId: 1 })).toMatchObject({ ok: false })
  })

  test.each(['ann', 'ANN', ' Ann'])('the proposer cannot confirm, as %j either, at the console no more than on the page', async (name) => {
    granted(await propose('ann'))
    for (const role of ['physician', 'console'] as const) {
      const refused = await confirmPatient(callBy(store, name, role), { heldId: 1 })
      expect(refused).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('Somebody else') })
    }
    expect([waitingIds(store), store.reader.allMappings()]).toEqual([[1, 2], []])
  })

  test('the database itself refuses that somebody confirms a choice of their own', async () => {
    granted(await propose('ann'))
    const own = store.record(callBy(store, 'ann'), (tx) => ({
      value: tx.decideChoice({ choiceId: 1, by: 'Ann', at: callOf(store).now, declinedBecause: null }),
      events: [{ action: 'held-patient-confirmed', choiceId: 1, heldId: 1, patientId: 'P1' }],
    }))
    await expect(own).rejects.toThrow(refusedBy(['check']))
  })

  test('declined, it stays held and can be proposed otherwise; two proposals do not wait at once', async () => {
    granted(await propose('ann'))
    expect(await propose('kim', { patientId: 'P2' })).toMatchObject({ ok: false, reason: expect.stringContaining('ann waits already') })
    expect(await propose('kim', { heldId: 2, patientId: 'P2', alike: false })).toMatchObject({ ok: false })
    granted(await declinePatient(callBy(store, 'ben'), { heldId: 1, reason: 'another birth date on paper' }))
    granted(await propose('kim', { patientId: 'P2', alike: false, remember: false }))
    granted(await confirmPatient(callBy(store, 'ben'), { heldId: 1 }))
    expect([waitingIds(store), valuesOf(store, 'P2'), store.reader.allMappings()]).toEqual([[2], ['14.2'], []])
  })

  test('a patient nobody knows is refused; an administrator neither proposes nor compares nor confirms', async () => {
    expect(await propose('ann', { patientId: 'P7' })).toMatchObject({ ok: false, kind: 'not-found' })
    const administrator = callOf(store, 'administrator')
    granted(await propose('ann'))
    expect(await confirmPatient(administrator, { heldId: 1 })).toMatchObject({ ok: false, kind: 'not-allowed' })
    expect(await compareHeld(administrator, { heldId: 1, patientId: 'P1' })).toMatchObject({ ok: false, kind: 'not-allowed' })
  })

  test('what identifies the two is shown and is an entry of the log with the patient', async () => {
    const compared = granted(await compareHeld(callBy(store, 'ann'), { heldId: 1, patientId: 'P1' }))
    expect(compared).toMatchObject({
      row: { identifier: 'X1' },
      patient: { name: 'Alder, Ann', birthDate: '1950-03-12', sex: 'female', identifiers: [] },
    })
    expect(compared.near?.values.map(({ says, isHeld }) => [says, isHeld])).toEqual([['14.2 g/L', true]])
    expect(compared.differs).toEqual(['the row gives no birth date', 'the row gives no sex'])
    expect(store.reader.trailPage({ actor: 'ann', limit: 1, offset: 0 }).rows[0]).toMatchObject({ action: 'held-compared', patientId: 'P1' })
  })
})

const message = (birth: string) => ({
  name: 'm.hl7',
  bytes: new TextEncoder().encode(
    [
      'MSH|^~\\&|a|north|b|c|20260601080000+0000||ORU^R01|1|P|2.5.1|||||||UNICODE UTF-8',
      `PID|1||P1^^^n^MR||x||${birth}|F`,
      'OBR|1|1|1|x|||20260601080000+0000',
      'OBX|1|NM|33358-3^x^LN||14.2|g/L|||||F',
      '',
    ].join('\r'),
  ),
})

test('another birth date is settled by two people for these rows only, never remembered', async () => {
  await takeFrom(store, 'north', [message('19510312')])
  expect(waitingReasons(store)).toEqual(['birth-date-differs'])
  expect(await propose('ann')).toMatchObject({ ok: false, reason: expect.stringContaining('never for later ones') })
  granted(await propose('ann', { remember: false }))
  granted(await confirmPatient(callBy(store, 'ben'), { heldId: 1 }))
  expect([waitingIds(store), valuesOf(store), store.reader.patient('P1')?.patient.birthDate]).toEqual([[], ['14.2'], '1950-03-12'])
  const [again] = await takeFrom(store, 'north', [{ ...message('19510312'), name: 'n.hl7' }])
  expect(again?.held).toBe(1)
})
