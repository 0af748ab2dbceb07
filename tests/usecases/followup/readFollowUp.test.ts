import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { figuresOf } from '../../../lib/followup/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { auditInParts } from '../../../lib/usecases/followup/auditInParts.ts'
import {
  AUDIT_CHARTS,
  acceptFiles,
  exportFollowUp,
  exportKeptFollowUp,
  type FollowUpWish,
  followUpDocument,
  type OccasionsWish,
  proposePlan,
  publishPlan,
  readFollowUp,
  readFollowUpPage,
  readOccasions,
  readOccasionsApart,
  readWaiting,
  readWaitingApart,
  workOutFollowUpApart,
} from '../../../lib/usecases/index.ts'
import { followUpDocument as schema } from '../../cli/schema.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, patientRow, resultRow, take } from '../clinic.ts'
import { FILES, visitRows, WISH } from './audited.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
  await take(store, FILES)
})
afterEach(() => dispose())

const last = () => store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]
const read = async (changes: Partial<FollowUpWish> = {}) => granted(await readFollowUp(callOf(store, 'physician'), { ...WISH, ...changes }))
const asQuality = (changes: Partial<OccasionsWish> = {}) =>
  readOccasions(callOf(store, 'quality'), { from: WISH.from, to: WISH.to, cutOff: null, by: 'clinician', key: 'Dr North', verdict: null, ...changes })

describe('the figures', () => {
  test('are those of the visits, for the whole and by group', async () => {
    const { figures } = await read()
    expect(figures.onTime).toMatchObject({ due: 24, onTime: 16, late: 4, missed: 4, proportion: 2 / 3 })
    expect(figures.by.group.map(({ key, due, onTime, late, missed }) => [key, due, onTime, late, missed])).toEqual(
      ['blood-count', 'chemistry', 'free-light-chains', 'serum-m-protein'].map((key) => [key, 6, 4, 1, 1]),
    )
    expect(figures.by.laboratory.map(({ key, due }) => [key, due])).toEqual([['North Laboratory', 24]])
    expect(figures.lateness).toEqual({ count: 4, median: 46, p90: 46, most: 46 })
    expect(figures.backlog).toMatchObject({ tests: 4, patients: 1, ages: { median: 89 } })
  })

  test('P3 alone is a small group by clinician: nobody sees its four tests by themselves', async () => {
    const { figures } = await read()
    expect(figures.by.clinician.map(({ key, due }) => [key, due])).toEqual([['others', 24]])
  })

  test('are logged with their digest, the period and the state of the database, and name no patient', async () => {
    const before = store.reader.dataRevision()
    const { sha256, revision } = await read()
    expect(revision).toBe(before)
    expect(last()).toMatchObject({ action: 'follow-up-read', object: 'follow-up audit', objectVersion: revision, afterHash: sha256, patientId: null })
    expect(last()?.event).toEqual({ action: 'follow-up-read', from: WISH.from, to: WISH.to, cutOff: '2026-11-25', revision, whatIf: null, sha256 })
  })

  test('come out the same again, digit by digit, until the data change: then the revision says so', async () => {
    const first = await read()
    const again = await read()
    expect([again.sha256, again.figures, again.revision]).toEqual([first.sha256, first.figures, first.revision])
    await take(store, [csv('late.csv', visitRows('P2', '2026-08-05'))])
    const changed = await read()
    expect(changed.figures.onTime).toMatchObject({ due: 28, onTime: 20, late: 4, missed: 4 })
    expect(changed.revision).toBeGreaterThan(again.revision)
  })

  test('as of an earlier cut-off know nothing that was collected later', async () => {
    expect((await read({ cutOff: '2026-04-10' })).figures.onTime).toMatchObject({ due: 4, onTime: 4, late: 0, missed: 0 })
    expect((await read({ cutOff: '2026-04-10' })).figures.pending).toBe(4)
    expect((await read({ cutOff: '2026-04-17' })).figures.onTime).toMatchObject({ due: 8, onTime: 4, missed: 4 })
  })

  test('tell how long rows were held, and how long results took to come in', async () => {
    granted(
      await acceptFiles(callOf(store), [csv('odd.csv', [resultRow({ code: '99999-9', collected_at: '2026-10-01' })])], {
        source: null,
        dryRun: false,
      }),
    )
    const { figures } = await read({ to: '2026-11-25' })
    expect(figures.held).toMatchObject({ rows: 1, waiting: 1, days: { events: 0, open: 1, median: null } })
    // Everything came on 2026-11-25; the middle of seven visits of eight results is that of 05-11.
    expect(figures.intakeDelay).toMatchObject({ count: 56, median: 198 })
  })

  test('under another version of the plan: more is due, from the same samples', async () => {
    const [physician, administrator] = [callOf(store, 'physician'), callOf(store, 'administrator')]
    const changes = { 'untreated.0.every': { days: 42 } }
    const { version } = granted(await proposePlan(physician, { changes, from: '2026-12-01', basedOn: 1, note: 'a test' }))
    granted(await publishPlan(administrator, { version, from: '2026-12-01' }))
    const { figures, whatIf } = await read({ whatIf: 2 })
    expect(figures.onTime).toMatchObject({ due: 24, late: 4 })
    // Every 42 days with a grace of 10: P1 is due 02-12, 05-14, 08-01 and 10-27, P2 02-12 and 06-22, P3 as before.
    expect(whatIf?.onTime).toMatchObject({ due: 28, onTime: 4, late: 16, missed: 8 })
    expect(await readFollowUp(physician, { ...WISH, whatIf: 9 })).toMatchObject({ ok: false, kind: 'not-found' })
  })

  test('name the version of the plan that began within the period, and by the cut-off', async () => {
    const changes = { 'untreated.0.every': { days: 42 } }
    const { version } = granted(await proposePlan(callOf(store, 'physician'), { changes, from: '2026-11-25', basedOn: 1, note: 'a test' }))
    granted(await publishPlan(callOf(store, 'administrator'), { version, from: '2026-11-25' }))
    expect((await read({ to: '2026-11-30' })).figures.planChanges).toEqual([{ version: '2', from: '2026-11-25' }])
    expect((await read({ to: '2026-11-30', whatIf: 2 })).whatIf?.planChanges).toEqual([])
    expect((await read({ to: '2026-11-30', cutOff: '2026-11-24' })).figures.planChanges).toEqual([])
    expect((await read({ to: '2026-11-24' })).figures.planChanges).toEqual([])
  })

  test('change nothing but the log', async () => {
    const before = store.reader.standings()
    await read()
    expect(store.reader.standings()).toEqual(before)
  })

  test.each([
    [{ from: '2026-13-01' }, 'is not a day'],
    [{ to: 'today' }, 'is not a day'],
    [{ cutOff: '2026-02-30' }, 'is not a day'],
    [{ from: '2026-06-01', to: '2026-05-31' }, 'before it begins'],
    [{ from: '2027-01-01', to: '2027-02-01' }, 'Nothing can be said'],
  ])('%j is refused, with why', async (changes, says) => {
    const outcome = await readFollowUp(callOf(store, 'physician'), { ...WISH, ...changes })
    expect(outcome).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining(says) })
  })
})

describe('the document of the command line', () => {
  test('has exactly its fields, and groups only when asked', async () => {
    const { figures } = await read()
    expect(schema.parse(followUpDocument(figures, null)).groups).toEqual([])
    for (const by of ['month', 'clinician', 'phase'] as const) {
      const { groups, onTime } = schema.parse(followUpDocument(figures, by))
      expect(groups.reduce((sum, { due }) => sum + due, 0)).toBe(onTime.due)
    }
  })

  test('charts the months in which anything was due, with limits by the formula', async () => {
    const { chart, onTime } = followUpDocument((await read()).figures, null)
    expect(chart.map(({ month, due, onTime: done }) => [month, due, done])).toEqual([
      ['2026-03', 8, 4],
      ['2026-06', 4, 4],
      ['2026-07', 4, 4],
      ['2026-08', 4, 0],
      ['2026-09', 4, 4],
    ])
    const centre = onTime.proportion ?? Number.NaN
    for (const { due, centre: told, lower, upper } of chart) {
      const reach = 3 * Math.sqrt((centre * (1 - centre)) / due)
      expect([told, lower, upper]).toEqual(
        [centre, Math.max(0, centre - reach), Math.min(1, centre + reach)].map((limit) => expect.closeTo(limit, 12)),
      )
    }
  })
})

describe('what waits behind a figure', () => {
  const wish = { from: WISH.from, to: WISH.to, cutOff: null } as const

  test('is as many as it counts, with patient numbers for a nurse, and the log keeps whose it is', async () => {
    const { figures } = await read()
    const { rows, found } = granted(await readWaiting(callOf(store, 'navigator'), { ...wish, what: 'overdue' }))
    expect([found, new Set(rows.map(({ patientId }) => patientId)).size]).toEqual([figures.backlog.tests, figures.backlog.patients])
    expect(rows.every(({ pseudonym, address, days }) => pseudonym === null && address !== null && days > 0)).toBe(true)
    expect(last()?.event).toMatchObject({ action: 'follow-up-patients-shown', by: 'overdue', patients: [rows[0]?.patientId] })
    const unanswered = granted(await readWaiting(callOf(store, 'physician'), { ...wish, what: 'unanswered' }))
    expect(unanswered.found).toBe(figures.answered.of - figures.answered.count)
    const noSecond = granted(await readWaiting(callOf(store, 'physician'), { ...wish, what: 'no-second' }))
    expect(noSecond.found).toBe(figures.daysToRepeat.open)
  })

  test('is told to quality under pseudonyms, from a process apart too', async () => {
    process.env.DATABASE_URL = url
    const call = callOf(store, 'quality')
    const { rows } = granted(await readWaiting(call, { ...wish, what: 'overdue' }))
    expect(rows.length).toBeGreaterThan(0)
    expect(rows.every(({ patientId, name, pseudonym }) => patientId === null && name === null && pseudonym !== null)).toBe(true)
    expect(JSON.stringify(rows)).not.toMatch(/P[123]|Quibble/)
    expect(last()?.event).toMatchObject({ action: 'pseudonymous-follow-up-patients-shown', by: 'overdue' })
    expect(granted(await readWaitingApart(call, { ...wish, what: 'overdue' })).rows).toEqual(rows)
  })
})

describe('the tests behind a row', () => {
  test('have patient numbers for a physician, latest first, and the log keeps whose they were', async () => {
    const wish = { from: WISH.from, to: WISH.to, cutOff: null, by: 'phase', key: 'others', verdict: 'late' } as const
    const { rows, found } = granted(await readOccasions(callOf(store, 'physician'), wish))
    expect(found).toBe(4)
    expect(rows.map(({ patientId, pseudonym, dueOn, doneOn, daysLate }) => [patientId, pseudonym, dueOn, doneOn, daysLate])).toEqual(
      Array(4).fill(['P2', null, '2026-03-26', '2026-05-11', 46]),
    )
    expect(last()?.event).toMatchObject({ action: 'follow-up-patients-shown', by: 'phase', patients: ['P2'] })
  })

  test('have pseudonyms for quality, and no number anywhere', async () => {
    const { rows } = granted(await asQuality({ by: 'laboratory', key: 'North Laboratory' }))
    expect(rows).toHaveLength(24)
    expect(rows.every(({ patientId, pseudonym }) => patientId === null && /^[0-9A-Z]{5}(-[0-9A-Z]{5}){2}$/.test(pseudonym ?? ''))).toBe(true)
    expect(JSON.stringify(rows)).not.toMatch(/P[123]|Quibble/)
    expect(last()?.event).toMatchObject({ action: 'pseudonymous-follow-up-patients-shown', patients: expect.arrayContaining(['P1', 'P2', 'P3']) })
  })

  test('of a group that is too small by itself are shown to nobody', async () => {
    for (const role of ['physician', 'quality'] as const) {
      const wish = { from: WISH.from, to: WISH.to, cutOff: null, by: 'clinician', key: 'Dr South', verdict: null } as const
      expect(await readOccasions(callOf(store, role), wish)).toMatchObject({
        ok: false,
        kind: 'not-found',
        reason: expect.stringContaining('others'),
      })
    }
    expect(granted(await asQuality({ key: 'others' })).rows).toHaveLength(24)
  })

  test('are refused to quality without the key of the pseudonyms', async () => {
    const before = process.env.LOWMARK_PSEUDONYM_KEY_FILE
    process.env.LOWMARK_PSEUDONYM_KEY_FILE = '/no/such/file'
    expect(await asQuality({ key: 'others' })).toMatchObject({ ok: false, kind: 'unavailable' })
    process.env.LOWMARK_PSEUDONYM_KEY_FILE = before
  })
})

test('a file says of which state it is; that of quality names no clinician', async () => {
  const wish = { ...WISH, by: 'clinician' } as const
  const file = granted(await exportFollowUp(callOf(store, 'navigator'), wish))
  expect(file.fileName).toBe('follow-up-2026-01-01-2026-10-31.csv')
  expect(file.text).toContain('"all","24","16","4","4","0.6667"')
  expect(file.text).toMatch(/revision \d+, SHA-256 of its figures [0-9a-f]{64}/)
  expect(last()?.event).toMatchObject({ action: 'follow-up-read', as: 'file' })
  await take(store, [csv('more.csv', visitRows('P3', '2026-10-01'))])
  // P3 is active now and due on 2026-10-02: eight tests are no small group.
  await take(store, [csv('c.csv', [{ patient_id: 'P3', on: '2026-07-11', event: 'phase', phase: 'active' }])])
  expect(granted(await exportFollowUp(callOf(store, 'navigator'), wish)).text).toContain('Dr North')
  const text = granted(await exportFollowUp(callOf(store, 'quality'), wish)).text
  expect(text).not.toMatch(/Dr (North|South)/)
  expect(text).toContain('clinician 1')
})

test('a process apart works out the same and logs nothing; each showing of what is kept is logged, and so is its file', async () => {
  process.env.DATABASE_URL = url
  const here = await read()
  const call = callOf(store, 'physician')
  const nobody = granted(await readFollowUpPage(call, WISH))
  expect([nobody.shown, nobody.wrong, nobody.usual]).toEqual([null, null, { from: '2026-01-01', to: '2026-06-30' }])
  const before = store.reader.trailHead().sequence
  const steps: string[] = []
  const apart = granted(await workOutFollowUpApart(call, WISH, ({ step, done, of }) => steps.push(`${step} ${done} ${of}`)))
  expect([apart.figures, apart.sha256]).toEqual([here.figures, here.sha256])
  expect(steps).toContain('patients audited 3 3')
  expect(store.reader.trailHead().sequence).toBe(before)
  const { shown } = granted(await readFollowUpPage(callOf(store, 'quality'), WISH))
  expect(shown).toMatchObject({ sha256: here.sha256, current: true, versions: [{ version: '1', from: null }], figures: here.figures })
  expect(last()).toMatchObject({ action: 'follow-up-read', afterHash: here.sha256 })
  const file = granted(await exportKeptFollowUp(callOf(store, 'quality'), { ...WISH, by: 'phase' }))
  expect(file.text).toContain(`SHA-256 of its figures ${here.sha256}`)
  expect(last()?.event).toMatchObject({ action: 'follow-up-read', as: 'file' })
  expect(store.reader.trailHead().sequence).toBe(before + 2)
  for (const chart of AUDIT_CHARTS) {
    const { fileName, text } = granted(await exportKeptFollowUp(call, { ...WISH, by: null, chart }))
    expect(fileName).toBe(`follow-up-${chart}-${WISH.from}-${WISH.to}.csv`)
    expect(text).toContain(here.sha256)
  }
  expect(store.reader.trailHead().sequence).toBe(before + 2 + AUDIT_CHARTS.length)
  const wish = { from: WISH.from, to: WISH.to, cutOff: null, by: 'clinician', key: 'others', verdict: null } as const
  expect(granted(await readOccasionsApart(call, wish)).rows).toHaveLength(24)
}, 60_000)

test('what is kept says when the data have changed since, and is kept of its own period, cut-off and plan alone', async () => {
  process.env.DATABASE_URL = url
  const call = callOf(store, 'physician')
  granted(await workOutFollowUpApart(call, WISH))
  await take(store, [csv('late.csv', visitRows('P2', '2026-08-05'))])
  expect(granted(await readFollowUpPage(call, WISH)).shown).toMatchObject({ current: false, figures: { onTime: { due: 24 } } })
  for (const other of [{ to: '2026-10-30' }, { cutOff: '2026-10-31' }, { whatIf: 1 }]) {
    expect(granted(await readFollowUpPage(call, { ...WISH, ...other })).shown).toBeNull()
  }
  expect(granted(await readFollowUpPage(call, { ...WISH, to: 'never' }))).toMatchObject({
    shown: null,
    wrong: '"never" is not a day written YYYY-MM-DD.',
  })
  granted(await workOutFollowUpApart(call, WISH))
  expect(granted(await readFollowUpPage(call, WISH)).shown).toMatchObject({ current: true, figures: { onTime: { due: 28 } } })
}, 60_000)

test('the tests behind a row name whom the reader may open; a closed record is its number', async () => {
  const wish = { from: WISH.from, to: WISH.to, cutOff: null, by: 'clinician', key: 'others', verdict: 'on-time' } as const
  const rows = async () => granted(await readOccasions(callOf(store, 'navigator'), wish)).rows.filter(({ patientId }) => patientId === 'P1')
  expect(new Set((await rows()).map(({ name, address }) => [name, address === store.reader.patientAddress('P1')].join(' ')))).toEqual(
    new Set(['Quibble true']),
  )
  await take(store, [csv('patients.csv', [patientRow({ patient_id: 'P1', status: 'died', status_on: '2026-11-01', family_name: 'Quibble' })])])
  expect(new Set((await rows()).map(({ name, address }) => [name, address].join()))).toEqual(new Set([',']))
  const asQuality = granted(await readOccasions(callOf(store, 'quality'), wish)).rows
  expect(asQuality.every(({ patientId, name, address }) => patientId === null && name === null && address === null)).toBe(true)
})

test('several processes, each with a part of the cohort, give what one gives', async () => {
  process.env.DATABASE_URL = url
  const call = callOf(store, 'physician')
  const wish = {
    period: { from: day(WISH.from), to: day(WISH.to), cutOff: day('2026-11-25') },
    whatIf: null,
    find: { by: 'clinician', keys: ['Dr South', 'Dr North'], verdict: null },
  } as const
  const alone = await auditInParts(call, wish)
  const together = await auditInParts(call, wish, undefined, 0)
  expect(figuresOf(wish.period, together.audit.counts, together.rows ?? { held: [], intake: new Map() })).toEqual(
    figuresOf(wish.period, alone.audit.counts, alone.rows ?? { held: [], intake: new Map() }),
  )
  expect(together.revision).toBe(alone.revision)
  const named = ({ patientId, group, dueOn }: (typeof alone.found)[number]) => `${patientId} ${group} ${dueOn}`
  expect(together.found.map(named).toSorted()).toEqual(alone.found.map(named).toSorted())
  expect(alone.found).toHaveLength(24)
}, 120_000)
