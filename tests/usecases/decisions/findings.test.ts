import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { addDays, day } from '../../../lib/time/index.ts'
import {
  listDocument,
  patientDocument,
  recheck,
  recordAttribution,
  recordReview,
  showList,
  withdrawAttribution,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, TODAY, take } from '../clinic.ts'
import { as, recent, seen, seenFinding, takeDamaged, written } from './damaged.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeDamaged(store)
})
afterEach(() => dispose())

const LATER = '2026-11-30T10:00:00.000Z'
const QUERY = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 10 } as const
const RULE = 'relapse-haemoglobin'

async function review(rule = RULE, wish: { note?: string; bringBackOn?: string | null; key?: string } = {}, call = as(store, 'navigator')) {
  const { key } = await seenFinding(store, rule)
  const bringBackOn = wish.bringBackOn === undefined || wish.bringBackOn === null ? null : day(wish.bringBackOn)
  return recordReview(call, { patientId: 'P1', rule, key: wish.key ?? key, note: wish.note ?? 'Spoke with the patient.', bringBackOn })
}

async function attribute(rule = RULE, cause = 'Iron deficiency', call = as(store, 'physician')) {
  const { key } = await seenFinding(store, rule)
  return recordAttribution(call, { patientId: 'P1', rule, key, cause })
}

/** Every current finding of P1 answered, so that the patient stands on schedule. */
async function answerAll(): Promise<number> {
  const { findings } = await seen(store)
  for (const { rule, key } of findings) {
    granted(await recordReview(as(store, 'navigator'), { patientId: 'P1', rule, key, note: 'Seen.', bringBackOn: null }))
  }
  return findings.length
}

describe('a review', () => {
  test('is kept with who, when and the note; the finding shows it, and the place of the patient counts without it', async () => {
    const { bringBackAtMost } = await seen(store)
    const answered = await answerAll()
    expect(answered).toBeGreaterThan(1)
    const { findings, window, why } = await seen(store)
    const finding = findings.find(({ rule }) => rule === RULE)
    expect(finding?.answered).toEqual({
      ...{ by: 'a navigator', on: TODAY, did: null, note: 'Seen.', takenBack: null },
      bringBackOn: bringBackAtMost,
    })
    expect(finding?.window).toBe('within-7-days')
    expect([findings.length, window]).toEqual([answered, 'on-schedule'])
    expect(why).toContain(`Answered: Clinical relapse: haemoglobin; comes back on ${bringBackAtMost}.`)
    const row = granted(await showList(as(store, 'navigator'), QUERY)).rows.find(({ patientId }) => patientId === 'P1')
    expect(row).toMatchObject({ window: 'on-schedule', rule: null, more: 0, answered, since: null })
    const kept = granted(await listDocument(as(store, 'navigator'), null)).patients.find(({ patientId }) => patientId === 'P1')
    expect(kept?.findings.map(({ rule }) => rule).toSorted()).toEqual(findings.map(({ rule }) => rule).toSorted())
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })

  test('of one of several leaves the others their place', async () => {
    const before = await seen(store)
    const [first, second] = before.findings
    granted(await review(first?.rule))
    const { findings, window } = await seen(store)
    expect([findings[0]?.rule, window]).toEqual([second?.rule, second?.window])
    const row = granted(await showList(as(store, 'navigator'), QUERY)).rows.find(({ patientId }) => patientId === 'P1')
    expect(row).toMatchObject({ rule: second?.rule, answered: 1, more: before.findings.length - 2 })
  })

  test('may bring the finding back on any day after today up to the latest one', async () => {
    const { bringBackAtMost } = await seen(store)
    const refusals = await Promise.all([TODAY, '2026-11-01', addDays(bringBackAtMost, 1)].map((bringBackOn) => review(RULE, { bringBackOn })))
    expect(refusals.map((outcome) => (outcome.ok ? 'kept' : outcome.reason))).toEqual([
      'The bring-back day has to be after today, 2026-11-25.',
      'The bring-back day has to be after today, 2026-11-25.',
      `The bring-back day can be ${bringBackAtMost} at the latest: never later than the next due test.`,
    ])
    expect(granted(await review(RULE, { bringBackOn: bringBackAtMost }))).toEqual({ bringBackOn: bringBackAtMost })
    expect(granted(await review(RULE, { bringBackOn: '2026-11-26' }))).toEqual({ bringBackOn: '2026-11-26' })
  })

  test('ends on its day: the list of that day shows the finding open, and the review among the past ones', async () => {
    await answerAll()
    granted(await review(RULE, { bringBackOn: '2026-11-30' }))
    const before = await seenFinding(store, RULE, as(store, 'physician', '2026-11-29T10:00:00.000Z'))
    const after = await seenFinding(store, RULE, as(store, 'physician', LATER))
    expect([before.answered?.bringBackOn, after.answered]).toEqual(['2026-11-30', null])
    expect(after.pastAnswers.map(({ note }) => note)).toEqual(['Spoke with the patient.', 'Seen.'])
    const row = granted(await showList(as(store, 'navigator', LATER), QUERY)).rows.find(({ patientId }) => patientId === 'P1')
    expect(row).toMatchObject({ rule: RULE, window: 'within-7-days' })
    expect(granted(await recheck(callOf(store, 'console', LATER))).differences).toEqual([])
  })

  test('of evidence that is no longer the newest is refused, and nothing is written', async () => {
    const { key } = await seenFinding(store, RULE)
    await take(store, [csv('more.csv', [recent('718-7', '101', 'g/L', { collected_at: '2026-11-24' })])])
    expect(await review(RULE, { key })).toEqual({ ok: false, kind: 'invalid', reason: 'New evidence arrived meanwhile: look again.' })
    await take(store, [csv('well.csv', [recent('718-7', '131', 'g/L', { collected_at: '2026-11-25' })])])
    const ended = await recordReview(as(store, 'navigator'), { patientId: 'P1', rule: RULE, key, note: 'Seen.', bringBackOn: null })
    expect(ended).toEqual({ ok: false, kind: 'invalid', reason: 'This finding is no longer current: look again.' })
    expect(store.reader.loadHistory('P1')?.history.decisions).toEqual([])
  })

  test('new evidence opens the finding again, its note stays with it', async () => {
    granted(await review())
    await take(store, [csv('more.csv', [recent('718-7', '101', 'g/L', { collected_at: '2026-11-24' })])])
    const finding = await seenFinding(store, RULE)
    expect([finding.state, finding.answered]).toEqual(['confirmed', null])
    expect(finding.pastAnswers).toEqual([{ by: 'a navigator', on: TODAY, did: null, note: 'Spoke with the patient.', takenBack: null }])
  })

  test('of a danger is on record and holds nothing back', async () => {
    await take(store, [csv('danger.csv', [recent('718-7', '70', 'g/L', { collected_at: '2026-11-24' })])])
    granted(await review('danger-haemoglobin'))
    const view = await seen(store)
    const danger = view.findings.find(({ rule }) => rule === 'danger-haemoglobin')
    expect([view.window, danger?.answered, danger?.pastAnswers.length]).toEqual(['same-day', null, 1])
  })
})

describe('another cause', () => {
  test('takes the finding to the next visit, with its caution; JSON of list and patient tell it', async () => {
    expect(granted(await attribute())).toEqual({ until: addDays(TODAY, 90) })
    const finding = await seenFinding(store, RULE)
    expect(finding).toMatchObject({
      window: 'next-visit',
      attributable: false,
      attribution: { id: 1, cause: 'Iron deficiency', by: 'a physician', on: TODAY, until: addDays(TODAY, 90), worsePercent: 25 },
    })
    const document = granted(await patientDocument(as(store, 'physician'), 'P1', null))
    expect(document.findings.find(({ rule }) => rule === RULE)?.cautions).toContain('attributed-elsewhere')
    expect(store.reader.standing('P1')?.answer).toContain('attributed-elsewhere')
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })

  test('is over once the value is a quarter worse', async () => {
    granted(await attribute())
    await take(store, [csv('worse.csv', [recent('718-7', '75', 'g/L', { collected_at: '2026-11-24' })])])
    expect(await seenFinding(store, RULE)).toMatchObject({ window: 'within-7-days', attribution: null, attributable: true })
  })

  test('can be withdrawn once, by number and with a reason', async () => {
    granted(await attribute())
    const withdraw = (attributionId: number, patientId = 'P1') =>
      withdrawAttribution(as(store, 'physician'), { patientId, attributionId, reason: 'Ferritin was normal.' })
    expect(await withdraw(7)).toMatchObject({ ok: false, kind: 'not-found' })
    expect(await withdraw(1, 'P2')).toMatchObject({ ok: false, kind: 'not-found' })
    expect(granted(await withdraw(1))).toBe(null)
    expect(await seenFinding(store, RULE)).toMatchObject({ window: 'within-7-days', attribution: null, attributable: true })
    expect(await withdraw(1)).toMatchObject({ ok: false, kind: 'invalid', reason: 'Attribution 1 was withdrawn already.' })
    expect(granted(await attribute())).toEqual({ until: addDays(TODAY, 90) })
  })

  test('is refused for a danger, for what is no organ damage, and while another one holds', async () => {
    await take(store, [csv('danger.csv', [recent('718-7', '70', 'g/L', { collected_at: '2026-11-24' })])])
    granted(await attribute())
    const { findings } = await seen(store)
    const gap = findings.find(({ attributable, rule }) => !attributable && !rule.startsWith('danger-') && rule !== RULE)
    expect(await attribute('danger-haemoglobin')).toMatchObject({
      ok: false,
      kind: 'invalid',
      reason: 'A danger finding cannot be attributed to another cause: it has to be looked at.',
    })
    expect(await attribute(gap?.rule)).toMatchObject({
      ok: false,
      reason: 'Another cause can be recorded for organ damage only, and this finding is none.',
    })
    expect(await attribute()).toMatchObject({ ok: false, reason: expect.stringContaining('withdraw it first') })
    expect(store.reader.loadHistory('P1')?.history.decisions).toHaveLength(1)
  })
})

test.each([
  ['too short', ' x ', 'The note is missing: it takes at least 3 characters, and is kept.'],
  ['too long', 'x'.repeat(501), 'The note has 501 characters; 500 are the most.'],
  ['on two lines', 'one\ntwo', 'The note holds a control character, such as a line break or a tab. Write it on one line.'],
  ['with a zero byte', 'one\0two', 'The note holds a control character, such as a line break or a tab. Write it on one line.'],
])('a text %s is refused', async (_, note, reason) => {
  const { key } = await seenFinding(store, RULE)
  const before = written(store)
  expect(await recordReview(as(store, 'navigator'), { patientId: 'P1', rule: RULE, key, note, bringBackOn: null })).toEqual({
    ok: false,
    kind: 'invalid',
    reason,
  })
  expect(written(store)).toEqual(before)
})

test('500 characters are kept as typed, blanks around them taken away', async () => {
  const note = '𝛽'.repeat(500)
  granted(await review(RULE, { note: `  ${note}\n` }))
  expect((await seenFinding(store, RULE)).answered?.note).toBe(note)
})

test('nobody’s patient and nobody’s rule are refused, and nothing is written', async () => {
  const before = written(store)
  const wish = { rule: RULE, key: '[]', note: 'Seen.', bringBackOn: null }
  expect(await recordReview(as(store, 'navigator'), { patientId: 'P9', ...wish })).toMatchObject({ ok: false, kind: 'not-found' })
  expect(await recordReview(as(store, 'navigator'), { patientId: 'P1', ...wish, rule: 'made-up' })).toMatchObject({ ok: false, kind: 'invalid' })
  expect(written(store)).toEqual(before)
})
