import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { listDocument, patientDocument, recheck, resolveHeld } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, listText, take } from '../clinic.ts'
import { CANCELLED, changes, LOWERED, RAISED, RISEN, RULE, risen, seen, seenOf, takeLevel, WITHDRAWN } from './relapse.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeLevel(store)
})
afterEach(() => dispose())

async function expectNoDifference(now?: string): Promise<void> {
  expect(granted(await recheck(callOf(store, 'console', now))).differences).toEqual([])
}

const patient = async (asOf: string | null = null) => granted(await patientDocument(callOf(store), 'P1', asOf === null ? null : day(asOf)))

describe('a finding that a correction removed', () => {
  test('stands in the history as it was told, with its caution, both values, file and row', async () => {
    await take(store, [RISEN])
    const [told] = (await seenOf(store, RULE)).current
    await take(store, [LOWERED])
    const { current, past } = await seenOf(store, RULE)
    expect([current.length, past.length, changes(store)]).toEqual([0, 1, ['removed pd-serum']])
    expect(past[0]).toMatchObject({ says: told?.says, state: told?.state, since: told?.since, endedOn: '2026-11-25', key: told?.key })
    expect(past[0]?.cautions.map(({ caution }) => caution)).toEqual(['one-sample', 'removed-by-correction'])
    expect(past[0]?.correction).toMatchObject({
      what: 'removed',
      says: 'Taken back by a correction that came in on 2026-11-25; serum M-protein of 2026-11-03: 36.0 g/L before, 10.5 g/L now.',
      reports: [
        {
          analyte: 'serum-m-protein',
          before: { received: '36.0 g/L', status: 'final', laboratory: 'North', fileName: 'original.csv', line: 2 },
          now: { received: '10.5 g/L', status: 'corrected', laboratory: 'North', fileName: 'correction.csv', line: 2 },
        },
      ],
      decided: [],
    })
    await expectNoDifference()
  })

  test('has in the JSON the caution and nothing besides; nothing current says anything of it', async () => {
    await take(store, [RISEN, LOWERED])
    const { history, findings } = await patient()
    const [entry] = history.filter(({ rule }) => rule === RULE)
    expect(entry?.cautions).toEqual(['one-sample', 'removed-by-correction'])
    expect(Object.keys(entry ?? {}).toSorted()).toEqual(
      ['rule', 'state', 'certainty', 'window', 'since', 'cautions', 'evidence', 'says', 'source'].toSorted(),
    )
    expect(findings.flatMap(({ cautions }) => cautions).filter((caution) => caution.endsWith('-by-correction'))).toEqual([])
    expect(granted(await listDocument(callOf(store), null)).patients[0]?.findings.map(({ rule }) => rule)).not.toContain(RULE)
  })

  test.each([
    ['withdrawn', WITHDRAWN, 'Taken back by a withdrawal', 'withdrawn as entered in error now'],
    ['cancelled', CANCELLED, 'Taken back by a cancellation', 'cancelled now'],
  ])('by a result that was %s says so', async (_, file, by, now) => {
    await take(store, [RISEN])
    await take(store, [file])
    const [past] = (await seenOf(store, RULE)).past
    expect(past?.correction?.says).toBe(`${by} that came in on 2026-11-25; serum M-protein of 2026-11-03: 36.0 g/L before, ${now}.`)
    await expectNoDifference()
  })

  test('by the final report after a preliminary one is not called a correction', async () => {
    await take(store, [csv('early.csv', [risen({ status: 'preliminary' })])])
    await take(store, [csv('final.csv', [risen({ value: '10.5', reported_at: '2026-11-05' })])])
    const [past] = (await seenOf(store, RULE)).past
    expect(past?.correction?.says).toBe(
      'Taken back by a final report that came in on 2026-11-25; serum M-protein of 2026-11-03: 36.0 g/L (preliminary) before, 10.5 g/L now.',
    )
  })

  test('and that had ended before is taken back too, with the day it ended', async () => {
    await take(store, [RISEN, csv('later.csv', [risen({ collected_at: '2026-11-20', value: '10.0', accession: 'L' })])])
    expect((await seenOf(store, RULE)).past.map(({ endedOn, correction }) => [endedOn, correction])).toEqual([['2026-11-20', null]])
    await take(store, [LOWERED])
    const { past } = await seenOf(store, RULE)
    expect(past.map(({ endedOn, correction }) => [endedOn, correction?.what])).toEqual([['2026-11-20', 'removed']])
    await expectNoDifference()
  })

  test('and is past since is told once, from the samples that still show it', async () => {
    const second = risen({ collected_at: '2026-11-20', value: '37.0', accession: 'S', reported_at: '2026-11-21' })
    await take(store, [RISEN, csv('later.csv', [second])])
    await take(store, [csv('lower.csv', [{ ...second, status: 'corrected', value: '10.0', reported_at: '2026-11-22' }])])
    const { current, past } = await seenOf(store, RULE)
    expect([current.length, past.length]).toEqual([0, 1])
    expect(past[0]).toMatchObject({ since: '2026-11-03', endedOn: '2026-11-20', correction: { what: 'removed' } })
    expect(past[0]?.cautions.map(({ caution }) => caution)).toContain('removed-by-correction')
  })
})

describe('a finding that a correction created', () => {
  const LOW = csv('low.csv', [risen({ value: '10.5' })])
  const HIGH = csv('high.csv', [risen({ status: 'corrected', value: '36.0', reported_at: '2026-11-10' })])

  test('says since which report, and its JSON is that of a patient of whom nothing was corrected', async () => {
    await take(store, [LOW])
    await take(store, [HIGH])
    expect(changes(store)).toEqual(['created pd-serum'])
    const [finding] = (await seenOf(store, RULE)).current
    expect(finding?.correction?.says).toBe(
      'Since a correction that came in on 2026-11-25; serum M-protein of 2026-11-03: 10.5 g/L before, 36.0 g/L now.',
    )
    expect(finding?.cautions.map(({ caution }) => caution)).toEqual(['one-sample'])
    await expectNoDifference()
    const other = await freshStore()
    await takeLevel(other.store)
    await take(other.store, [HIGH, LOW])
    await take(other.store, [LOW])
    expect(await listText(store)).toBe(await listText(other.store))
    await other.dispose()
  })

  test('says in the history that a correction had created it, once later samples end it', async () => {
    await take(store, [LOW])
    await take(store, [HIGH])
    await take(store, [csv('later.csv', [risen({ collected_at: '2026-11-20', value: '10.0', accession: 'L', reported_at: '2026-11-21' })])])
    const [entry] = (await patient()).history.filter(({ rule }) => rule === RULE)
    expect(entry?.cautions).toEqual(['one-sample', 'created-by-correction'])
    expect(changes(store)).toEqual(['created pd-serum'])
    await expectNoDifference()
  })

  test('is a test overdue where its last sample was cancelled', async () => {
    await take(store, [LOW])
    const before = (await seenOf(store, 'overdue')).current.map(({ since }) => since)
    await take(store, [CANCELLED])
    const { current } = await seenOf(store, 'overdue')
    const serum = current.find(({ correction }) => correction !== null)
    expect(before).not.toContain(serum?.since)
    expect(serum?.correction?.says).toContain('Since a cancellation that came in on 2026-11-25')
  })
})

test('a finding a correction changed says what it was before', async () => {
  const second = risen({ collected_at: '2026-11-20', value: '37.0', accession: 'S', reported_at: '2026-11-21' })
  await take(store, [RISEN, csv('later.csv', [second])])
  expect((await seenOf(store, RULE)).current[0]?.state).toBe('confirmed')
  await take(store, [LOWERED])
  expect(changes(store).filter((change) => change.endsWith(RULE))).toEqual(['changed pd-serum'])
  const [finding] = (await seenOf(store, RULE)).current
  expect(finding).toMatchObject({ state: 'unconfirmed', since: '2026-11-20' })
  expect(finding?.correction?.says).toBe(
    'Changed by a correction that came in on 2026-11-25; serum M-protein of 2026-11-03: 36.0 g/L before, 10.5 g/L now. Before it was confirmed, to be looked at within 7 days.',
  )
  await expectNoDifference()
})

test('a correction of a correction brings the finding back; both stand in its history', async () => {
  await take(store, [RISEN])
  await take(store, [LOWERED])
  await take(store, [RAISED])
  expect(changes(store)).toEqual(['removed pd-serum', 'created pd-serum'])
  const { current, past } = await seenOf(store, RULE)
  expect([current.map(({ correction }) => correction?.what), past.map(({ correction }) => correction?.what)]).toEqual([['created'], ['removed']])
  await take(store, [WITHDRAWN])
  expect(changes(store).filter((change) => change.endsWith(RULE))).toEqual(['removed pd-serum', 'created pd-serum', 'removed pd-serum'])
  expect((await seenOf(store, RULE)).past).toHaveLength(2)
  await expectNoDifference()
})

describe('nothing is told', () => {
  test('of a correction of a value that no finding rests on', async () => {
    const albumin = risen({ code: '1751-7', value: '40', accession: 'B' })
    await take(store, [RISEN, csv('albumin.csv', [albumin])])
    await take(store, [csv('corrected.csv', [{ ...albumin, status: 'corrected', value: '41' }])])
    expect(store.reader.versionsOfPatient('P1').filter(({ result }) => result.analyte === 'albumin')).toHaveLength(2)
    expect(changes(store)).toEqual([])
  })

  test('of an original and its correction in one file, or of a correction that waited for it', async () => {
    await take(store, [csv('both.csv', [risen({ status: 'corrected', value: '10.5' }), risen()])])
    expect(changes(store)).toEqual([])
    const other = await freshStore()
    await takeLevel(other.store)
    await take(other.store, [LOWERED])
    await take(other.store, [RISEN])
    expect(other.store.reader.versionsOfPatient('P1').filter(({ result }) => result.accession === 'R')).toHaveLength(2)
    expect(changes(other.store)).toEqual([])
    await other.dispose()
  })

  test('again when the files come again, the original after its correction included', async () => {
    await take(store, [RISEN])
    await take(store, [LOWERED])
    await take(store, [LOWERED])
    await take(store, [RISEN])
    await take(store, [LOWERED, RISEN])
    expect(changes(store)).toEqual(['removed pd-serum'])
  })

  test('by a dry run', async () => {
    await take(store, [RISEN])
    await take(store, [LOWERED], { dryRun: true })
    expect(changes(store)).toEqual([])
  })
})

test('what a new result of the same file finds is not told as the work of a correction', async () => {
  await take(store, [RISEN])
  const platelets = risen({ code: '777-3', value: '18', unit: '10*9/L', accession: 'T', collected_at: '2026-11-20', reported_at: '2026-11-21' })
  await take(store, [csv('both.csv', [risen({ status: 'corrected', value: '10.5', reported_at: '2026-11-10' }), platelets])])
  expect((await seen(store)).findings.map(({ rule }) => rule)).toContain('danger-platelets')
  expect(changes(store)).toEqual(['removed pd-serum'])
})

test('of two corrections of one file each finding names the one it rests on', async () => {
  const platelets = risen({ code: '777-3', value: '18', unit: '10*9/L', accession: 'T', collected_at: '2026-11-20', reported_at: '2026-11-21' })
  await take(store, [RISEN, csv('low.csv', [platelets])])
  const again = { status: 'corrected', reported_at: '2026-11-22' }
  await take(store, [csv('both.csv', [risen({ ...again, value: '10.5' }), { ...platelets, ...again, value: '180' }])])
  const { changes: told } = store.reader.loadHistory('P1')?.history ?? { changes: [] }
  expect(told.map(({ rule, corrections }) => [rule, corrections.map(({ by }) => by.analyte)])).toEqual(
    expect.arrayContaining([
      ['pd-serum', ['serum-m-protein']],
      ['danger-platelets', ['platelets']],
    ]),
  )
})

test('a conflict that a person decided in favour of the later row is a correction as well', async () => {
  await take(store, [RISEN])
  await take(store, [csv('other.csv', [risen({ value: '10.5', reported_at: '2026-11-10' })])])
  expect(changes(store)).toEqual([])
  const [held] = store.reader.heldQueue()
  granted(await resolveHeld(callOf(store, 'navigator'), held?.id ?? 0, 'file', 'The laboratory confirmed it by telephone.'))
  expect(changes(store)).toEqual(['removed pd-serum'])
  const [past] = (await seenOf(store, RULE)).past
  expect(past?.correction?.reports[0]?.now).toMatchObject({ received: '10.5 g/L', fileName: 'other.csv' })
  await expectNoDifference()
})

test('of a day before the correction came its value is told, and nothing of what it did', async () => {
  await take(store, [RISEN])
  await take(store, [LOWERED])
  const before = await patient('2026-11-24')
  expect([...before.findings, ...before.history].map(({ rule }) => rule)).not.toContain(RULE)
  expect((await patient('2026-11-25')).history.map(({ rule }) => rule)).toContain(RULE)
})

test('the days go by: an audit finds no difference after a correction', async () => {
  await take(store, [RISEN])
  await take(store, [LOWERED])
  for (const now of ['2026-11-26', '2026-12-31', '2027-06-01']) await expectNoDifference(`${now}T10:00:00.000Z`)
})
