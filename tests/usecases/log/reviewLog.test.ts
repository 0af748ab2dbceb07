import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { type Call, readLogReviews, readTrail, reviewLog } from '../../../lib/usecases/index.ts'
import { notReviewed } from '../../../lib/usecases/log/notReviewed.ts'
import { freshStore } from '../../store/freshStore.ts'
import { fromOutside } from '../../store/outside.ts'
import { granted } from '../accounts/persons.ts'
import { inSession } from '../emergency/closed.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
})
afterEach(() => dispose())

const LOOKED = ['failures', 'emergency-views']
const on = (text: string, name = 'a quality'): Call => {
  const call = inSession(store, 'quality', `${text}T10:00:00.000Z`)
  return { ...call, actor: { ...call.actor, name } }
}
const review = (call: Call, from: string, to: string, note = '') => reviewLog(call, { from, to, lookedAt: LOOKED, note })

const period = (from: string, to: string) => ({ from: day(from), to: day(to) })

test.each([
  ['nothing reviewed', [], ['2026-11-01 2026-11-10']],
  ['the middle', [period('2026-11-03', '2026-11-05')], ['2026-11-01 2026-11-02', '2026-11-06 2026-11-10']],
  ['all of it and more', [period('2026-10-01', '2026-12-01')], []],
  ['two that touch', [period('2026-11-06', '2026-11-10'), period('2026-11-01', '2026-11-05')], []],
  ['two that overlap', [period('2026-11-01', '2026-11-07'), period('2026-11-04', '2026-11-08')], ['2026-11-09 2026-11-10']],
  ['one within another', [period('2026-11-01', '2026-11-09'), period('2026-11-02', '2026-11-03')], ['2026-11-10 2026-11-10']],
  ['days before and after it', [period('2026-10-01', '2026-10-31'), period('2026-11-11', '2026-11-12')], ['2026-11-01 2026-11-10']],
] as const)('days not reviewed: %s', (_, reviews, left) => {
  expect(notReviewed(period('2026-11-01', '2026-11-10'), reviews).map(({ from, to }) => `${from} ${to}`)).toEqual(left)
})

test('what was reviewed, by whom, at what, and since when it was not', async () => {
  await readTrail(on('2026-11-01'), null)
  await readTrail(on('2026-11-20', 'somebody else'), null)
  expect(granted(await readLogReviews(on('2026-11-25'))).notReviewed).toEqual([period('2026-11-01', '2026-11-24')])
  const { sentence } = granted(await review(on('2026-11-25'), '2026-11-02', '2026-11-22', ' Two refusals, both explained. '))
  expect(sentence).toBe('Recorded as reviewed from 2026-11-02 to 2026-11-22: 1 entry.')
  const { reviews, notReviewed: left, lastDay } = granted(await readLogReviews(on('2026-11-25')))
  expect(left).toEqual([period('2026-11-01', '2026-11-01'), period('2026-11-23', '2026-11-24')])
  expect(lastDay).toBe('2026-11-24')
  expect(reviews).toMatchObject([
    { by: 'a quality', at: '2026-11-25T10:00:00.000Z', lookedAt: ['failures', 'emergency-views'], note: 'Two refusals, both explained.', entries: 1 },
  ])
  expect(JSON.stringify(store.reader.trailPage({ actor: null, limit: 99, offset: 0 }))).not.toContain('both explained')
})

test('a log that began today has no day to review, which is not the same as every day reviewed', async () => {
  await readTrail(on('2026-11-25'), null)
  expect(granted(await readLogReviews(on('2026-11-25')))).toMatchObject({ notReviewed: [], hasDays: false })
  expect(granted(await readLogReviews(on('2026-11-26')))).toMatchObject({ notReviewed: [period('2026-11-25', '2026-11-25')], hasDays: true })
  granted(await review(on('2026-11-26'), '2026-11-25', '2026-11-25'))
  expect(granted(await readLogReviews(on('2026-11-26')))).toMatchObject({ notReviewed: [], hasDays: true })
})

test("one's own entries reviewed by oneself stay in sight until somebody else reviews the same days", async () => {
  await readTrail(on('2026-11-10'), null)
  await readTrail(on('2026-11-12', 'somebody else'), null)
  expect(granted(await review(on('2026-11-25'), '2026-11-09', '2026-11-13')).sentence).toContain('1 of them is your own; somebody else should look')
  const seen = async () => granted(await readLogReviews(on('2026-11-25'))).reviews.map(({ ownEntries, ownUnseen }) => [ownEntries, ownUnseen])
  expect(await seen()).toEqual([[1, true]])
  // The same person in other letters is nobody else.
  granted(await review(on('2026-11-25', 'A QUALITY'), '2026-11-09', '2026-11-13'))
  expect((await seen()).at(-1)).toEqual([1, true])
  granted(await review(on('2026-11-25', 'somebody else'), '2026-11-11', '2026-11-13'))
  expect((await seen()).at(-1)).toEqual([1, true])
  granted(await review(on('2026-11-25', 'somebody else'), '2026-11-01', '2026-11-10'))
  expect((await seen()).at(-1)).toEqual([1, false])
})

test.each([
  ['a day that is none', '2026-02-30', '2026-03-01', LOOKED, '', 'A day is written YYYY-MM-DD.'],
  ['days the wrong way round', '2026-11-03', '2026-11-02', LOOKED, '', 'The first day comes after the last.'],
  ['today', '2026-11-03', '2026-11-25', LOOKED, '', 'The last day has to be over: at the latest yesterday, in UTC.'],
  ['nothing looked at', '2026-11-03', '2026-11-04', ['no such question'], '', 'Say what was looked at: at least one question.'],
  ['a note of two letters', '2026-11-03', '2026-11-04', LOOKED, 'ok', 'The note is missing: it takes at least 3 characters, and is kept.'],
])('is refused with %s', async (_, from, to, lookedAt, note, reason) => {
  expect(await reviewLog(on('2026-11-25'), { from, to, lookedAt, note })).toEqual({ ok: false, kind: 'invalid', reason })
  expect(store.reader.logReviews()).toEqual([])
})

test.each(['UPDATE log_review SET own_entries = 0', 'DELETE FROM log_review', 'INSERT OR REPLACE INTO log_review SELECT * FROM log_review'])(
  'a review is never changed: %s',
  async (sql) => {
    granted(await review(on('2026-11-25'), '2026-11-02', '2026-11-22'))
    const outside = fromOutside(url)
    expect(() => outside.exec(sql)).toThrow(/never|follows the last one/)
    outside.close()
  },
)
