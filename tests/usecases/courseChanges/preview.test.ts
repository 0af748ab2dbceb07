import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { changeCourse, excludeResult, openPatient, previewConsequence, recheck, recordReview, restoreResult } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { csv, resultRow, take } from '../clinic.ts'
import { resultId, written } from '../decisions/damaged.ts'
import { change, corrected, physician, REASON, started, takeCourse } from './changed.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeCourse(store)
})
afterEach(() => dispose())

const preview = async (wish: Parameters<typeof change>[1]) =>
  granted(await previewConsequence(physician(store), { patientId: 'P1', would: 'change-course', change: wish }))

describe('the consequence of a change', () => {
  test('of a line that starts: baseline, lowest, findings, due tests and window, and nothing is written but that it was shown', async () => {
    const before = [store.reader.loadHistory('P1'), store.reader.standings()]
    const shown = await preview(started('2026-11-02', 'daratumumab + gibberish'))
    expect(shown.window).toEqual({ now: 'within-7-days', would: 'on-schedule' })
    expect(shown.appearing).toEqual([])
    expect(shown.ending.map(({ title }) => title)).toEqual([...Array(4).fill('Test overdue'), 'Rise beyond noise'])
    expect(shown.response).toEqual({ now: 'PR, confirmed, provisional', would: 'none' })
    expect(shown.due.map(({ group, now, would }) => [group, now, would])).toContainEqual(['free-light-chains', '2024-02-17', '2026-11-30'])
    expect(shown.facts).toEqual([
      { name: 'Line', now: 'line 1 from 2024-01-20, bortezomib', would: 'line 2 from 2026-11-02, daratumumab + gibberish, relapse' },
    ])
    expect(shown.marks).toEqual([
      {
        marker: 'serum-m-protein',
        rows: [
          { mark: 'baseline', now: '42 g/L of 2024-01-15', would: '11 g/L of 2026-11-01' },
          { mark: 'lowest', now: '8 g/L of 2025-06-01', would: '11 g/L of 2026-11-01' },
          { mark: 'lowest confirmed', now: '9 g/L of 2025-07-01', would: '11 g/L of 2026-11-01' },
        ],
      },
    ])
    expect(shown.notes).toEqual([
      'Not a drug name Lowmark knows: gibberish. It is kept as typed; check the spelling of the INN.',
      'Line 1 has no end on record. The new line counts all the same.',
    ])
    expect(shown.isSame).toBe(false)
    expect([store.reader.loadHistory('P1'), store.reader.standings()]).toEqual(before)
    expect(logged(store).at(-1)).toEqual({ actor: 'a physician', role: 'physician', action: 'consequence-shown', outcome: 'success' })
  })

  test('of a change that changes nothing that is said, it says so', async () => {
    expect((await preview({ kind: 'line-corrected', line: 1, began: day('2024-01-20'), regimen: 'carfilzomib', intent: null })).isSame).toBe(false)
    const excluded = granted(await previewConsequence(physician(store), { patientId: 'P1', would: 'exclude', resultId: resultId(store, '9') }))
    expect(excluded.marks.flatMap(({ rows }) => rows.map(({ mark }) => mark))).toContain('lowest confirmed')
  })

  test('is refused where the change would be, in the same words, and to a nurse', async () => {
    const wish = started('2026-12-24')
    const refused = await previewConsequence(physician(store), { patientId: 'P1', would: 'change-course', change: wish })
    expect(refused).toEqual(await change(store, wish))
    const before = written(store)
    const nurse = await previewConsequence(callOf(store, 'navigator'), { patientId: 'P1', would: 'exclude', resultId: 1 })
    expect(nurse).toMatchObject({ ok: false, kind: 'not-allowed' })
    expect(written(store)).not.toEqual(before)
    expect(logged(store).at(-1)?.action).toBe('access-refused')
  })
})

describe('what was shown is what is kept', () => {
  test('with its stamp it is kept; a second physician who was shown the same is told and keeps nothing', async () => {
    const wish = corrected('2023-12-20')
    const { stamp } = await preview(wish)
    granted(await change(store, wish, { shown: stamp }))
    const second = { ...physician(store), actor: { ...physician(store).actor, name: 'another physician' } }
    const kept = store.reader.courseChangesOf('P1')
    // By now it would change nothing: that is said first.
    expect(await change(store, wish, { shown: stamp, call: second })).toMatchObject({ ok: false, kind: 'invalid' })
    const other = corrected('2023-12-01')
    expect(
      await change(
        store,
        { ...other, kind: 'phase-recorded', phase: 'mgus', began: day('2020-01-01'), stepsBack: false },
        { shown: stamp, call: second },
      ),
    ).toMatchObject({
      ok: false,
      stale: 'other',
    })
    expect(store.reader.courseChangesOf('P1')).toEqual(kept)
  })

  test('where something arrived meanwhile the person is told, and the new consequence is kept with its own stamp', async () => {
    const wish = started('2026-11-02')
    const first = await preview(wish)
    await take(store, [csv('late.csv', [resultRow({ collected_at: '2026-11-20', value: '13', accession: 'late' })])])
    const before = written(store)
    expect(await change(store, wish, { shown: first.stamp })).toEqual({
      ok: false,
      kind: 'invalid',
      stale: 'arrived',
      reason: 'Something arrived or was decided meanwhile. This is what it would do now; nothing is kept yet.',
    })
    expect(written(store)).toEqual(before)
    granted(await change(store, wish, { shown: (await preview(wish)).stamp }))
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })

  test('a nurse who answers a finding meanwhile counts as something that was decided', async () => {
    const id = resultId(store, '11')
    const { stamp } = granted(await previewConsequence(physician(store), { patientId: 'P1', would: 'exclude', resultId: id }))
    const [finding] = granted(await openPatient(physician(store), 'P1')).findings
    const answer = { patientId: 'P1', rule: finding?.rule ?? '', key: finding?.key ?? '', note: 'Seen.', bringBackOn: null }
    granted(await recordReview(callOf(store, 'navigator'), answer))
    const wish = { patientId: 'P1', resultId: id, reason: REASON }
    expect(await excludeResult(physician(store), { ...wish, shown: stamp })).toMatchObject({ stale: 'arrived' })
    granted(await excludeResult(physician(store), wish))
    const back = granted(await previewConsequence(physician(store), { patientId: 'P1', would: 'restore', resultId: id }))
    granted(await restoreResult(physician(store), { ...wish, shown: back.stamp }))
  })

  test('a ratio is told with two places and no unit', async () => {
    const chains = [
      ['2024-01-15', '100', '16'],
      ['2026-11-01', '100', '15.994801'],
    ] as const
    const rows = chains.flatMap(([collected_at, kappa, lambda]) => [
      resultRow({ collected_at, code: '36916-5', value: kappa, unit: 'mg/L', accession: `K ${collected_at}` }),
      resultRow({ collected_at, code: '33944-0', value: lambda, unit: 'mg/L', accession: `L ${collected_at}` }),
    ])
    await take(store, [csv('chains.csv', rows)])
    const { marks } = await preview(started('2026-11-02', 'daratumumab'))
    const ratio = marks.find(({ marker }) => marker === 'involved-ratio')?.rows.find(({ mark }) => mark === 'baseline')
    expect(ratio).toEqual({ mark: 'baseline', now: '6.25 of 2024-01-15', would: '6.25 of 2026-11-01' })
  })

  test('both at the same moment: one is kept, the other is told', async () => {
    const wish = { kind: 'care-changed', care: 'maintenance', began: day('2025-01-01') } as const
    const other = { kind: 'care-changed', care: 'off-treatment', began: day('2025-03-01') } as const
    const stamps = [(await preview(wish)).stamp, (await preview(other)).stamp]
    const answers = await Promise.all(
      [wish, other].map((one, at) => changeCourse(physician(store), { patientId: 'P1', change: one, reason: REASON, shown: stamps[at] })),
    )
    expect(answers.map(({ ok }) => ok)).toEqual([true, false])
    expect(answers[1]).toMatchObject({ stale: 'arrived' })
    expect(store.reader.courseChangesOf('P1').length).toBe(1)
  })
})
