import fc from 'fast-check'
import { expect, test } from 'vitest'
import { findingKey, isDanger, sameSubject } from '../../../lib/review/index.ts'
import { WINDOWS, type Window } from '../../../lib/rules/index.ts'
import { assess } from '../../../lib/standing/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { addDays, day } from '../../../lib/time/index.ts'
import { type Call, endRound, excludeResult, openPatient, recheck, recordReview, startRound, takeAnswersBack } from '../../../lib/usecases/index.ts'
import { planInForce } from '../../../lib/usecases/plan/planInForce.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { list, on, takeTwo, takeValue, whom } from './week.ts'

const patient = fc.constantFrom('P1', 'P2')
const STEP = fc.oneof(
  { weight: 4, arbitrary: fc.record({ do: fc.constant('value'), patient, value: fc.constantFrom('10.0', '14.0', '25.0') } as const) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('danger'), patient } as const) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('correct'), patient, value: fc.constantFrom('10.0', '30.0') } as const) },
  { weight: 4, arbitrary: fc.record({ do: fc.constant('answer'), patient, nth: fc.nat({ max: 3 }), days: fc.constantFrom(1, 3, null) } as const) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('hand over'), patient, nth: fc.nat({ max: 3 }) } as const) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('take back'), patient, nth: fc.nat({ max: 3 }) } as const) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('exclude'), patient, nth: fc.nat({ max: 5 }) } as const) },
  { weight: 4, arbitrary: fc.record({ do: fc.constant('days'), days: fc.integer({ min: 1, max: 9 }) } as const) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('round') } as const) },
)
type Step = typeof STEP extends fc.Arbitrary<infer T> ? T : never

/** What stands open of a patient, evaluated afresh and by whole keys: what the kept digests are held against. */
function openNow(store: Store, today: string, patientId: string) {
  const { history } = store.reader.loadHistory(patientId) ?? {}
  if (history === undefined) throw new Error('no history')
  const { open, known, window } = assess(history, planInForce(store.reader, day(today)), day(today))
  const taken = new Set(known.decisions.map((decision) => (decision.kind === 'answer-withdrawn' ? decision.answerId : null)))
  const given = known.decisions.filter((decision) => decision.kind === 'review' || decision.kind === 'handover').filter(({ id }) => !taken.has(id))
  return { open: open.map((finding) => ({ rule: finding.rule, since: finding.since, key: findingKey(finding) })), given, window }
}
type Open = ReturnType<typeof openNow>

async function act(call: Call, step: Step, turn: number): Promise<void> {
  const { store, today } = call
  if (step.do === 'value') await takeValue(call, step.patient, today, step.value, { accession: `t${turn}` })
  if (step.do === 'danger') await takeValue(call, step.patient, today, '60', { code: '718-7', accession: `d${turn}` })
  if (step.do === 'correct') await takeValue(call, step.patient, '2026-06-01', step.value, { status: 'corrected', reported_at: today })
  if (step.do === 'answer') {
    const { findings } = granted(await openPatient(call, step.patient))
    const finding = findings.filter(({ answered }) => answered === null)[step.nth]
    if (finding === undefined) return
    const { rule, key } = finding
    const wish = { patientId: step.patient, rule, key, note: 'Seen.' }
    const until = step.days === null ? null : addDays(today, step.days)
    const answered = await recordReview(call, { ...wish, bringBackOn: until })
    if (!answered.ok) granted(await recordReview(call, { ...wish, bringBackOn: null }))
  }
  if (step.do === 'hand over') {
    const finding = granted(await openPatient(call, step.patient)).findings[step.nth]
    if (finding === undefined) return
    const { rule, key } = finding
    await recordReview(call, { patientId: step.patient, rule, key, did: 'handed-to-physician', note: '', bringBackOn: null })
  }
  if (step.do === 'take back') {
    const given = store.reader.decisionsOf(step.patient).filter(({ kind }) => kind === 'review' || kind === 'handover')
    const decision = given.at(-1 - step.nth)
    if (decision !== undefined) await takeAnswersBack(call, { patientId: step.patient, decisionIds: [decision.id] })
  }
  if (step.do === 'exclude') {
    const result = store.reader.loadHistory(step.patient)?.history.results[step.nth]
    if (result !== undefined)
      await excludeResult({ ...call, actor: callOf(store, 'physician').actor }, { patientId: step.patient, resultId: result.id, reason: 'spurious' })
  }
  if (step.do === 'round') {
    const { roundId } = granted(await startRound(call))
    granted(await endRound(call, { roundId }))
  }
}

/** New if and only if some open key was not open at the end of the round. */
function isNew(now: Open, then: Open): boolean {
  return now.open.some(({ key }) => !then.open.some((was) => was.key === key))
}

/** Came back: reviewed while it lasted, open again; and it was not open at the end of the round, or the review came after that. */
function cameBack(now: Open, then: Open, endedAt: string): boolean {
  return now.open.some(({ key, rule, since }) => {
    const last = now.given.findLast((one) => sameSubject(one.key, key) && one.on >= since)
    // What is handed to a physician is open for that.
    if (last?.kind !== 'review' || isDanger(rule) || rule === 'reviewed-then-corrected') return false
    return last.at > endedAt || !then.open.some((was) => sameSubject(was.key, key))
  })
}

async function holds(call: Call, ends: ReadonlyMap<number, { readonly at: string; readonly atEnd: ReadonlyMap<string, Open> }>): Promise<void> {
  const { store, today } = call
  for (const [since, { at, atEnd }] of ends) {
    const told = {
      new: await whom(call, { news: 'new', since }),
      back: await whom(call, { news: 'came-back', since }),
      waiting: await whom(call, { news: 'waiting', since }),
    }
    const { rows, round } = await list(call, { since })
    for (const patientId of ['P1', 'P2']) {
      const [now, was] = [openNow(store, today, patientId), atEnd.get(patientId) ?? { open: [], given: [], window: 'on-schedule' as Window }]
      const news = isNew(now, was)
      expect(told.new.includes(patientId)).toBe(news)
      // What was reviewed and then taken back is told by a gap of its own, which the independent count above leaves out.
      const gap = now.open.some(({ rule }) => rule === 'reviewed-then-corrected')
      const back = told.back.includes(patientId)
      if (!gap) expect(back).toBe(cameBack(now, was, at))
      expect(told.waiting.includes(patientId)).toBe(now.open.length > 0 && !news && !back)
      const row = rows.find((one) => one.patientId === patientId)
      expect(row?.round?.since).toMatchObject({ isNew: news, windowThen: was.window })
      expect((row?.round?.since?.back.length ?? 0) > 0).toBe(back)
      // Nobody stands sooner than at the round without something new.
      if (WINDOWS.indexOf(now.window) < WINDOWS.indexOf(was.window)) expect(news).toBe(true)
      expect(row?.round?.seenOn === null).toBe(now.open.length === 0)
    }
    expect(round.news).toMatchObject({ isNew: told.new.length, cameBack: told.back.length })
  }
}

test('new, came back and waiting are what whole keys of findings evaluated afresh say, against every round there was', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(STEP, { minLength: 5, maxLength: 16 }), async (steps) => {
      const { store, dispose } = await freshStore()
      let today = day('2026-11-02')
      await takeTwo(store, on(store, today))
      const ends = new Map<number, { at: string; atEnd: Map<string, Open> }>()
      for (const [turn, step] of steps.entries()) {
        if (step.do === 'days') today = addDays(today, step.days)
        const minute = String(turn).padStart(2, '0')
        const call = callOf(store, 'navigator', `${today}T10:${minute}:00.000Z`)
        await act(call, step, turn)
        const ended = store.reader.endedRounds(1)[0]
        if (step.do === 'round' && ended !== undefined)
          ends.set(ended.id, { at: call.now, atEnd: new Map(['P1', 'P2'].map((id) => [id, openNow(store, today, id)])) })
        await holds(call, ends)
      }
      expect(granted(await recheck(callOf(store, 'console', `${today}T11:00:00.000Z`))).differences).toEqual([])
      await dispose()
    }),
    { numRuns: 12 },
  )
}, 300_000)
