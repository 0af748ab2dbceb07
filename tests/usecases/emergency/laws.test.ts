import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import {
  acknowledgeEmergency,
  endEmergency,
  excludeResult,
  type Outcome,
  openEmergency,
  openPatient,
  readEmergencies,
  recordAttribution,
  recordReview,
  restoreResult,
  withdrawAttribution,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { runs } from '../../store/runs.ts'
import { granted, later } from '../accounts/persons.ts'
import { inSession, REASON, takeClosed } from './closed.ts'

const WRITES = ['review', 'cause', 'withdrawn cause', 'exclusion', 'restoration'] as const
const STEP = fc.record({
  act: fc.constantFrom('open', 'end', 'read', 'read', 'acknowledge', ...WRITES),
  session: fc.constantFrom('one', 'two'),
  /** So many seconds pass before it. */
  waits: fc.constantFrom(0, 1, 1799, 1800, 3599, 3600),
})

type Step = typeof STEP extends fc.Arbitrary<infer S> ? S : never

function write(act: (typeof WRITES)[number], call: Parameters<typeof recordReview>[0], resultId: number): Promise<Outcome<unknown>> {
  const of = { patientId: 'P2', reason: 'a test' }
  const finding = { patientId: 'P2', rule: 'pd-serum', key: '[]' }
  if (act === 'review') return recordReview(call, { ...finding, note: 'looked at', bringBackOn: null })
  if (act === 'cause') return recordAttribution(call, { ...finding, cause: 'bleeding' })
  if (act === 'withdrawn cause') return withdrawAttribution(call, { ...of, attributionId: 1 })
  return act === 'exclusion' ? excludeResult(call, { ...of, resultId }) : restoreResult(call, { ...of, resultId })
}

/** What is stored of the patient, but for the log and the views. */
const decided = (store: Store): string => JSON.stringify([store.reader.loadHistory('P2')?.history.decisions, store.reader.patient('P2')?.revision])

async function follow(store: Store, steps: readonly Step[]): Promise<void> {
  const before = decided(store)
  const resultId = store.reader.loadHistory('P2')?.history.results[0]?.id ?? 0
  /** The views as they should be: the session, and the second at which each is over. */
  const views: { id: number; session: string; overAt: number; acknowledged: boolean }[] = []
  let second = 0
  for (const { act, session, waits } of steps) {
    second += waits
    const call = inSession(store, 'physician', later(second), session)
    const running = views.find((view) => view.session === session && second < view.overAt)
    if (act === 'open') {
      const outcome = await openEmergency(call, { patientId: 'P2', reason: REASON })
      expect(outcome.ok).toBe(running === undefined)
      if (outcome.ok) views.push({ id: outcome.value.emergencyId, session, overAt: second + 3600, acknowledged: false })
    } else if (act === 'end') {
      // One's own view can be ended from another session too: that only closes.
      const ended = running ?? views.at(-1)
      const runs = ended !== undefined && second < ended.overAt
      expect((await endEmergency(call, { emergencyId: ended?.id ?? 99 })).ok).toBe(runs)
      if (runs) ended.overAt = second
    } else if (act === 'read') {
      expect((await openPatient(call, 'P2')).ok).toBe(running !== undefined)
    } else if (act === 'acknowledge') {
      const last = views.at(-1)
      const may = last !== undefined && !last.acknowledged && second >= last.overAt
      expect((await acknowledgeEmergency(inSession(store, 'quality', later(second)), { emergencyId: last?.id ?? 99, note: '' })).ok).toBe(may)
      if (may) last.acknowledged = true
    } else {
      expect(await write(act, call, resultId)).toMatchObject({ ok: false, kind: 'not-allowed', closed: true })
      const [entry] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
      expect(entry).toMatchObject({ action: 'access-refused', patientId: 'P2' })
    }
    expect(decided(store)).toBe(before)
    const page = granted(await readEmergencies(inSession(store, 'quality', later(second))))
    const shown = (some: boolean) => views.filter(({ acknowledged }) => acknowledged === some).map(({ id }) => id)
    expect(page.waiting.map(({ emergencyId }) => emergencyId)).toEqual(shown(false))
    expect(page.acknowledged.map(({ emergencyId }) => emergencyId)).toEqual(shown(true).toReversed())
  }
}

test('whatever is done in whatever order: a view reads for 60 minutes in its own session, lets no decision through, and is shown to quality', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(STEP, { minLength: 4, maxLength: 14 }), async (steps) => {
      const { store, dispose } = await freshStore()
      try {
        await takeClosed(store)
        await follow(store, steps)
      } finally {
        await dispose()
      }
    }),
    runs(12),
  )
}, 60_000)
