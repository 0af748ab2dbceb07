import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import {
  excludeResult,
  type ListRow,
  listDocument,
  patientDocument,
  recheck,
  recordAttribution,
  recordReview,
  showList,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, take } from '../clinic.ts'
import { changes, GAP, LOWERED, RAISED, RISEN, RULE, review, risen, seen, seenOf, takeLevel } from './relapse.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeLevel(store)
})
afterEach(() => dispose())

const QUERY = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 10 } as const
const NEXT_DAY = '2026-11-26T10:00:00.000Z'
const nurse = (now?: string) => callOf(store, 'navigator', now)
const physician = (now?: string) => callOf(store, 'physician', now)

async function listed(call = nurse(), mine = false): Promise<ListRow[]> {
  return [...granted(await showList(call, { ...QUERY, mine })).rows]
}

async function expectNoDifference(now?: string): Promise<void> {
  expect(granted(await recheck(callOf(store, 'console', now))).differences).toEqual([])
}

describe('a reviewed finding that a correction removed', () => {
  beforeEach(async () => {
    await take(store, [RISEN])
    await review(store, RULE)
    await take(store, [LOWERED], { call: callOf(store, 'console', NEXT_DAY) })
  })

  test('comes back as a finding that says what was removed, by which report, who had reviewed it and when', async () => {
    const { current } = await seenOf(store, GAP, nurse(NEXT_DAY))
    expect(current.map(({ window, since, says }) => [window, since, says])).toEqual([
      [
        'within-7-days',
        '2026-11-26',
        'Progression by serum M-protein, found since 2026-11-03, was reviewed by a navigator on 2026-11-25. On 2026-11-26 a correction took it back: serum M-protein of 2026-11-03: 36.0 g/L before, 10.5 g/L now. What was said or done because of it rests on the earlier report.',
      ],
    ])
    expect(current[0]?.correction?.reports[0]).toMatchObject({
      before: { fileName: 'original.csv', line: 2 },
      now: { fileName: 'correction.csv', line: 2 },
    })
    const { findings } = granted(await patientDocument(physician(NEXT_DAY), 'P1', null))
    expect(findings.map(({ rule }) => rule)).toContain(GAP)
    await expectNoDifference(NEXT_DAY)
  })

  test('is marked in the list for whoever reviewed it and for nobody else, and can be asked for', async () => {
    expect((await listed(nurse(NEXT_DAY))).map(({ patientId, comesBackToYou }) => [patientId, comesBackToYou])).toEqual([['P1', true]])
    expect((await listed(physician(NEXT_DAY))).map(({ patientId, comesBackToYou }) => [patientId, comesBackToYou])).toEqual([['P1', false]])
    expect((await listed(nurse(NEXT_DAY), true)).map(({ patientId }) => patientId)).toEqual(['P1'])
    expect(await listed(physician(NEXT_DAY), true)).toEqual([])
    const { patients } = granted(await listDocument(physician(NEXT_DAY), null))
    expect(patients[0]?.findings.map(({ rule }) => rule)).toContain(GAP)
    expect(Object.keys(patients[0] ?? {})).not.toContain('comesBackTo')
  })

  test('is answered with a review, by whoever looks at it, and never comes back; the note stays with it', async () => {
    await review(store, GAP, 'Rang the patient: it was not so.', physician(NEXT_DAY))
    const [answered] = (await seenOf(store, GAP, nurse(NEXT_DAY))).current
    expect(answered?.answered).toMatchObject({ by: 'a physician', on: '2026-11-26', note: 'Rang the patient: it was not so.' })
    expect((await listed(nurse(NEXT_DAY))).map(({ rule, comesBackToYou }) => [rule === GAP, comesBackToYou])).toEqual([[false, false]])
    await expectNoDifference(NEXT_DAY)

    const over = `${answered?.answered?.bringBackOn}T10:00:00.000Z`
    for (const now of [over, '2027-11-26T10:00:00.000Z']) {
      const { current, past } = await seenOf(store, GAP, nurse(now))
      expect(current).toEqual([])
      expect(past.map(({ endedOn, pastAnswers }) => [endedOn, pastAnswers.map(({ note }) => note)])).toEqual([
        ['2026-11-26', ['Rang the patient: it was not so.']],
      ])
      expect(await listed(nurse(now), true)).toEqual([])
      await expectNoDifference(now)
    }
  })

  test('is open again itself once a later correction brings it back, and still theirs', async () => {
    await take(store, [RAISED], { call: callOf(store, 'console', NEXT_DAY) })
    expect((await seenOf(store, GAP, nurse(NEXT_DAY))).current).toEqual([])
    const [finding] = (await seenOf(store, RULE, nurse(NEXT_DAY))).current
    expect([finding?.answered, finding?.correction?.decided]).toEqual([null, [{ kind: 'reviewed', by: 'a navigator', on: '2026-11-25' }]])
    expect((await listed(nurse(NEXT_DAY), true)).map(({ patientId }) => patientId)).toEqual(['P1'])
    await review(store, RULE, 'Seen again.', nurse(NEXT_DAY))
    expect(await listed(nurse(NEXT_DAY), true)).toEqual([])
    await expectNoDifference(NEXT_DAY)
  })

  test('that was taken back twice comes back twice, although the first time was answered', async () => {
    const call = callOf(store, 'console', NEXT_DAY)
    await review(store, GAP, 'Rang the patient: it was not so.', physician(NEXT_DAY))
    await take(store, [RAISED], { call })
    await take(store, [csv('third.csv', [risen({ status: 'corrected', value: '10.4', reported_at: '2026-11-13' })])], { call })
    const { current } = await seenOf(store, GAP, nurse(NEXT_DAY))
    expect(current.map(({ answered, says }) => [answered, says.includes('36.0 g/L before, 10.4 g/L now')])).toEqual([[null, true]])
    expect((await listed(nurse(NEXT_DAY), true)).map(({ patientId }) => patientId)).toEqual(['P1'])
    await expectNoDifference(NEXT_DAY)
  })

  test('is not told of somebody who has left the clinic, and stays in the history', async () => {
    await take(store, [csv('left.csv', [{ patient_id: 'P1', on: '2026-11-26', event: 'left', reason: 'transferred' }])], {
      call: callOf(store, 'console', NEXT_DAY),
    })
    const console = callOf(store, 'console', NEXT_DAY)
    expect((await seenOf(store, GAP, console)).current).toEqual([])
    expect((await seenOf(store, RULE, console)).past).toHaveLength(1)
  })

  test('of the day before nothing of it is told', async () => {
    const { findings, history } = granted(await patientDocument(physician(NEXT_DAY), 'P1', '2026-11-25' as never))
    expect([...findings, ...history].map(({ rule }) => rule)).not.toContain(GAP)
  })
})

test('nobody had reviewed it: nothing comes back to anybody', async () => {
  await take(store, [RISEN])
  await take(store, [LOWERED])
  expect((await seenOf(store, GAP)).current).toEqual([])
  expect((await listed()).map(({ comesBackToYou }) => comesBackToYou)).toEqual([false])
})

test('a reviewed finding that a correction changed opens again and is marked until somebody reviews what it is now', async () => {
  const second = risen({ collected_at: '2026-11-20', value: '37.0', accession: 'S', reported_at: '2026-11-21' })
  await take(store, [RISEN, csv('later.csv', [second])])
  await review(store, RULE)
  expect((await seenOf(store, RULE)).current[0]?.answered?.by).toBe('a navigator')
  await take(store, [LOWERED])
  const [finding] = (await seenOf(store, RULE)).current
  expect([finding?.answered, finding?.pastAnswers.map(({ note }) => note)]).toEqual([null, ['Told the patient.']])
  expect(finding?.correction?.decided).toEqual([{ kind: 'reviewed', by: 'a navigator', on: '2026-11-25' }])
  expect((await seenOf(store, GAP)).current).toEqual([])
  expect((await listed(nurse(), true)).map(({ patientId }) => patientId)).toEqual(['P1'])
  await review(store, RULE, 'Seen again.', physician())
  expect(await listed(nurse(), true)).toEqual([])
  await expectNoDifference()
})

const HAEMOGLOBIN = { code: '718-7', unit: 'g/L', accession: 'H', collected_at: '2026-11-20', reported_at: '2026-11-21' }
const FALLEN = csv('haemoglobin.csv', [
  risen({ ...HAEMOGLOBIN, collected_at: '2024-01-18', value: '130', accession: 'H0' }),
  risen({ ...HAEMOGLOBIN, value: '95' }),
])
const WELL = csv('well.csv', [risen({ ...HAEMOGLOBIN, value: '130', status: 'corrected', reported_at: '2026-11-22' })])

test('an attributed finding that a correction removed comes back to the physician', async () => {
  await take(store, [FALLEN])
  const [finding] = (await seenOf(store, 'relapse-haemoglobin')).current
  const wish = { patientId: 'P1', rule: 'relapse-haemoglobin', key: finding?.key ?? '' }
  granted(await recordAttribution(physician(), { ...wish, cause: 'Iron deficiency' }))
  await take(store, [WELL])
  const told = (await seenOf(store, GAP)).current.find(({ says }) => says.startsWith('Clinical relapse: haemoglobin'))
  expect(told?.says).toContain('was reviewed by a physician on 2026-11-25, who recorded another cause.')
  expect((await listed(physician(), true)).map(({ patientId }) => patientId)).toEqual(['P1'])
  await expectNoDifference()
})

test('a danger somebody had noted comes back when a correction removes it', async () => {
  await take(store, [csv('low.csv', [risen({ ...HAEMOGLOBIN, value: '70' })])])
  await review(store, 'danger-haemoglobin', 'Sent to the ward.')
  await take(store, [WELL])
  expect((await seenOf(store, GAP)).current.map(({ says }) => says.split(',')[0])).toContain('Danger: low haemoglobin')
  await expectNoDifference()
})

test('a finding from the correction of an excluded report comes back to whoever excluded it', async () => {
  await take(store, [FALLEN])
  const excluded = (await seen(store)).results.find(({ received }) => received === '95 g/L')
  granted(await excludeResult(physician(), { patientId: 'P1', resultId: excluded?.resultId ?? 0, reason: 'Drawn above a drip.' }))
  expect((await seenOf(store, 'relapse-haemoglobin')).current).toEqual([])
  await take(store, [csv('again.csv', [risen({ ...HAEMOGLOBIN, value: '94', status: 'corrected', reported_at: '2026-11-22' })])])
  const [finding] = (await seenOf(store, 'relapse-haemoglobin')).current
  expect(finding?.correction).toMatchObject({ what: 'created', decided: [{ kind: 'excluded', by: 'a physician', on: '2026-11-25' }] })
  expect((await listed(physician(), true)).map(({ patientId }) => patientId)).toEqual(['P1'])
  expect(await listed(nurse(), true)).toEqual([])
  expect(changes(store)).toContain('created relapse-haemoglobin')
  await expectNoDifference()
})

test('of two people who review what was taken back at once both are kept, and the last answers it', async () => {
  await take(store, [RISEN])
  await review(store, RULE)
  await take(store, [LOWERED])
  const [gap] = (await seenOf(store, GAP)).current
  const wish = { patientId: 'P1', rule: GAP, key: gap?.key ?? '', note: 'Seen.', bringBackOn: null }
  const outcomes = await Promise.all([recordReview(nurse(), wish), recordReview(physician(), wish)])
  expect(outcomes.map((outcome) => (outcome.ok ? 'kept' : outcome.reason))).toEqual(['kept', 'kept'])
  expect((await seenOf(store, GAP)).current.map(({ answered }) => answered?.by)).toEqual(['a physician'])
})
