import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { patientDocument, readTrail, recheck, recheckStored, type WishedChange } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { fromOutside } from '../../store/outside.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, TODAY, take } from '../clinic.ts'
import { seen, written } from '../decisions/damaged.ts'
import { takeClosed } from '../emergency/closed.ts'
import { join } from '../merges/joined.ts'
import { change, corrected, physician, REASON, started, takeBack, takeCourse } from './changed.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeCourse(store)
})
afterEach(() => dispose())

const facts = async (patientId = 'P1') => {
  const { phase, phaseSince, care, lines, clinician } = await seen(store, patientId)
  return {
    phase: `${phase} ${phaseSince}`,
    care,
    lines: lines.map(({ number, start, end, regimen }) => [number, start, end, regimen.join('+')].join(' ')),
    clinician,
  }
}
const AS_CAME = { phase: 'active 2024-01-10', care: 'on-treatment', lines: ['1 2024-01-20  bortezomib'], clinician: 'Dr North' }

const EACH: readonly (readonly [string, WishedChange, object])[] = [
  [
    'a phase is recorded',
    { kind: 'phase-recorded', phase: 'plasma-cell-leukaemia', began: day('2026-10-01'), stepsBack: false },
    { phase: 'plasma-cell-leukaemia 2026-10-01' },
  ],
  ['a phase is corrected', corrected('2023-12-20'), { phase: 'active 2023-12-20' }],
  ['a phase is taken out', { kind: 'phase-withdrawn', was: { phase: 'active', on: day('2024-01-10') } }, { phase: 'unrecorded null', care: null }],
  ['a line is started', started('2026-11-02'), { lines: ['1 2024-01-20  bortezomib', '2 2026-11-02  daratumumab+lenalidomide'] }],
  [
    'a line is corrected',
    { kind: 'line-corrected', line: 1, began: day('2024-01-12'), regimen: 'Melphalan, prednisone', intent: null },
    { lines: ['1 2024-01-12  melphalan+prednisone'] },
  ],
  [
    'a line is ended',
    { kind: 'line-ended', line: 1, ended: day('2025-02-01') },
    { lines: ['1 2024-01-20 2025-02-01 bortezomib'], care: 'off-treatment' },
  ],
  ['a line is taken out', { kind: 'line-withdrawn', line: 1 }, { lines: [], care: 'off-treatment' }],
  ['care is changed', { kind: 'care-changed', care: 'maintenance', began: day('2025-01-01') }, { care: 'maintenance' }],
  ['the clinician is changed', { kind: 'clinician-changed', clinician: 'Dr South' }, { clinician: 'Dr South' }],
]

describe('a physician changes the course', () => {
  test.each(EACH)(
    '%s: revision, standing and log in one write, as-of and recheck agree; taken back, all is as it came',
    async (_name, wish, expected) => {
      const revision = store.reader.patient('P1')?.revision ?? 0
      const asCame = store.reader.standing('P1')
      granted(await change(store, wish))
      expect(await facts()).toEqual({ ...AS_CAME, ...expected })
      expect(store.reader.standing('P1')).toMatchObject({ historyRevision: revision + 1, evaluatedOn: TODAY })
      expect(granted(await recheck(callOf(store))).differences).toEqual([])
      // As of the day before it was made, nothing of it is known.
      const before = granted(await patientDocument(physician(store), 'P1', day('2026-11-24')))
      expect([before.phase, before.care]).toEqual(['active', 'on-treatment'])

      granted(await takeBack(store, 1))
      expect(await facts()).toEqual(AS_CAME)
      expect(store.reader.standing('P1')).toEqual({ ...asCame, historyRevision: revision + 2 })
      expect(granted(await recheck(callOf(store))).differences).toEqual([])
      expect(granted(await recheckStored(callOf(store)))).toMatchObject({ decisions: 2, faults: [] })
    },
  )

  test('a line that was ended goes on again by a word of its own', async () => {
    granted(await change(store, { kind: 'line-ended', line: 1, ended: day('2025-02-01') }))
    granted(await change(store, { kind: 'line-goes-on', line: 1 }))
    expect(await facts()).toEqual(AS_CAME)
    expect(await takeBack(store, 1)).toMatchObject({ ok: false, reason: `Change 2 of ${TODAY} builds on this one: take that back first.` })
    granted(await takeBack(store, 2))
    granted(await takeBack(store, 1))
    expect(await takeBack(store, 1)).toMatchObject({ ok: false, reason: 'Change 1 was taken back already.' })
    expect(await takeBack(store, 3)).toMatchObject({ ok: false, kind: 'not-found' })
  })

  test('the log has numbers and digests, and no word of what was said or why', async () => {
    granted(await change(store, corrected('2023-12-20')))
    granted(await takeBack(store, 1))
    const { rows } = granted(await readTrail(callOf(store), null))
    const ours = rows.filter(({ action }) => action.startsWith('course-change')).map(({ says }) => says)
    expect(ours).toEqual(['A change of the course was taken back for patient P1 (change 2).', 'The course was changed for patient P1 (change 1).'])
    const [back, made] = store.reader.trailPage({ actor: null, offset: 0, limit: 20 }).rows.filter(({ action }) => action.startsWith('course-change'))
    expect(back?.beforeHash).toBe(made?.afterHash)
    expect([made?.object, made?.patientId, made?.purpose]).toEqual(['course change 1', 'P1', 'TREAT'])
    expect(JSON.stringify([back, made])).not.toMatch(/2023-12-20|active|Read again/)
  })
})

const REFUSED: readonly (readonly [string, WishedChange])[] = [
  ['2026-11-26 is after today, 2026-11-25: only what has happened is recorded.', started('2026-11-26')],
  ['1949-12-31 is before the patient was born.', corrected('1949-12-31')],
  ['A line cannot end before it starts: line 1 began on 2024-01-20.', { kind: 'line-ended', line: 1, ended: day('2024-01-19') }],
  ['Line 1 began on 2024-01-20: the next line cannot begin before it.', started('2024-01-19')],
  ['There is no line 7 any more: look again.', { kind: 'line-ended', line: 7, ended: day('2026-01-01') }],
  ['Line 1 goes on already: no end counts.', { kind: 'line-goes-on', line: 1 }],
  ['Name at least one drug of the line, by its INN.', started('2026-11-01', ' + ')],
  ['Nothing would change: this is what counts now.', corrected('2024-01-10')],
  [
    'The course would step back: smouldering since 2026-01-01 after active since 2024-01-10. Tick that this is meant, or correct the other phase.',
    { kind: 'phase-recorded', phase: 'smouldering', began: day('2026-01-01'), stepsBack: false },
  ],
  [
    'active counts since 2024-01-10 already: correct that day instead.',
    { kind: 'phase-recorded', phase: 'active', began: day('2025-01-01'), stepsBack: false },
  ],
  ['On 2024-01-10 active began: correct that phase instead.', { kind: 'phase-recorded', phase: 'mgus', began: day('2024-01-10'), stepsBack: false }],
  ['MGUS since 2020-01-01 does not count any more: look again.', { kind: 'phase-withdrawn', was: { phase: 'mgus', on: day('2020-01-01') } }],
  [
    'Line 1 began on 2024-01-20, after that day, and would decide: correct the line instead.',
    { kind: 'care-changed', care: 'maintenance', began: day('2024-01-15') },
  ],
  ['Nothing would change: this is what counts now.', { kind: 'care-changed', care: 'on-treatment', began: day('2024-01-20') }],
  ['Dr North is the clinician already.', { kind: 'clinician-changed', clinician: 'Dr North' }],
  [
    'No clinician is called "Dr Nobody" here. Choose one that a patients file or an account names.',
    { kind: 'clinician-changed', clinician: 'Dr Nobody' },
  ],
]

describe('is refused with a sentence, and nothing is written', () => {
  test.each(REFUSED)('%s', async (reason, wish) => {
    const before = written(store)
    expect(await change(store, wish)).toEqual({ ok: false, kind: 'invalid', reason })
    expect(written(store)).toEqual(before)
  })

  test('a step back that is meant is kept', async () => {
    granted(await change(store, { kind: 'phase-recorded', phase: 'smouldering', began: day('2026-01-01'), stepsBack: true }))
    expect((await seen(store)).phase).toBe('smouldering')
  })

  test('without a reason, by a nurse, of a patient nobody knows', async () => {
    const wish = corrected('2023-12-20')
    const { changeCourse } = await import('../../../lib/usecases/index.ts')
    expect(await changeCourse(physician(store), { patientId: 'P1', change: wish, reason: ' ' })).toMatchObject({
      reason: expect.stringContaining('The reason is missing'),
    })
    expect(await change(store, wish, { call: callOf(store, 'navigator') })).toMatchObject({
      kind: 'not-allowed',
      reason: expect.stringContaining('course.write'),
    })
    expect(logged(store).at(-1)).toEqual({ actor: 'a navigator', role: 'navigator', action: 'access-refused', outcome: 'failure' })
    expect(await change(store, wish, { patientId: 'P9' })).toMatchObject({ kind: 'not-found' })
  })

  test('of a closed record', async () => {
    const other = await freshStore()
    await takeClosed(other.store)
    const answer = await change(other.store, corrected('2023-12-20'), { patientId: 'P2', call: physician(other.store) })
    expect(answer).toMatchObject({ ok: false, kind: 'not-allowed', closed: true })
    expect(other.store.reader.courseChangesOf('P2')).toEqual([])
    await other.dispose()
  })
})

describe('what intake says later', () => {
  test('of the same thing does not override the physician, whatever its order; sent again, the first file is known', async () => {
    granted(await change(store, corrected('2023-12-20')))
    const later = csv('later.csv', [{ patient_id: 'P1', on: '2024-02-02', event: 'phase', phase: 'active' }])
    await take(store, [later])
    await take(store, [csv('course.csv', courseRows())])
    expect((await facts()).phase).toBe('active 2023-12-20')
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
    granted(await takeBack(store, 1))
    expect((await facts()).phase).toBe('active 2024-01-10')
  })

  test('of another clinician is kept and does not count until the change is taken back', async () => {
    granted(await change(store, { kind: 'clinician-changed', clinician: 'Dr South' }))
    await take(store, [csv('patients.csv', [patientRow({ clinician: 'Dr West' })])])
    expect((await facts()).clinician).toBe('Dr South')
    expect(store.reader.standing('P1')?.clinician).toBe('Dr South')
    granted(await takeBack(store, 1))
    expect((await facts()).clinician).toBe('Dr West')
  })
})

describe('joined records', () => {
  test('a change of what only the other record was told stays with that record, and counts while they are joined', async () => {
    await take(store, [csv('second.csv', [{ patient_id: 'P2', on: '2026-10-01', event: 'line-start', line: '2', regimen: 'daratumumab' }])])
    const mergeId = await join(store)
    granted(await change(store, { kind: 'line-corrected', line: 2, began: day('2026-09-25'), regimen: 'daratumumab', intent: null }))
    granted(await change(store, { kind: 'care-changed', care: 'maintenance', began: day('2026-10-10') }))
    expect((await facts()).lines.at(-1)).toBe('2 2026-09-25  daratumumab')
    expect(store.reader.courseChangesOf('P2').map(({ kind }) => kind)).toEqual(['line-corrected'])
    expect(store.reader.courseChangesOf('P1').map(({ kind }) => kind)).toEqual(['care-changed'])
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
    expect(granted(await recheckStored(callOf(store))).faults).toEqual([])

    const { endMerge } = await import('../../../lib/usecases/index.ts')
    granted(await endMerge(physician(store), { mergeId, reason: 'Two persons after all.' }))
    expect((await facts('P2')).lines).toEqual(['2 2026-09-25  daratumumab'])
    expect((await facts('P1')).lines).toEqual(['1 2024-01-20  bortezomib'])
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })
})

test('a change is a row that the database neither alters nor removes', async () => {
  granted(await change(store, corrected('2023-12-20')))
  expect(store.reader.courseChangesOf('P1')).toMatchObject([
    { id: 1, by: 'a physician', on: TODAY, text: REASON, told: [{ event: 'diagnosis', on: '2024-01-10' }] },
  ])
  const db = fromOutside(store.url)
  expect(() => db.exec("UPDATE course_change SET text = 'other'")).toThrow('never altered')
  expect(() => db.exec('DELETE FROM course_change')).toThrow('never removed')
  expect(() => db.exec('INSERT OR REPLACE INTO course_change SELECT * FROM course_change')).toThrow('never replaced')
  db.close()
})
