import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PHASES } from '../../../lib/results/index.ts'
import { assess, consequenceOf } from '../../../lib/standing/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { addDays } from '../../../lib/time/index.ts'
import {
  type Considered,
  changeCourse,
  excludeResult,
  openPatient,
  previewConsequence,
  recheck,
  restoreResult,
  takeBackChange,
  type WishedChange,
} from '../../../lib/usecases/index.ts'
import { planInForce } from '../../../lib/usecases/plan/planInForce.ts'
import { consequenceView } from '../../../lib/usecases/proposals/consequenceView.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { TODAY } from '../clinic.ts'
import { filledStore } from '../cohort.ts'

let store: Store
let dispose: () => Promise<void>
beforeAll(async () => {
  ;({ store, dispose } = await filledStore())
}, 120_000)
afterAll(() => dispose())

const someDay = fc.integer({ min: 0, max: 700 }).map((days) => addDays(TODAY, -days))
const someLine = fc.integer({ min: 1, max: 3 })
const someRegimen = fc.constantFrom('daratumumab + dexamethasone', 'lenalidomide', 'melphalan, prednisone')
const someIntent = fc.constantFrom(null, 'induction' as const, 'maintenance' as const)

const someChange: fc.Arbitrary<WishedChange> = fc.oneof(
  fc.record({ kind: fc.constant('phase-recorded' as const), phase: fc.constantFrom(...PHASES), began: someDay, stepsBack: fc.constant(true) }),
  fc.record({ kind: fc.constant('line-started' as const), began: someDay, regimen: someRegimen, intent: someIntent }),
  fc.record({ kind: fc.constant('line-corrected' as const), line: someLine, began: someDay, regimen: someRegimen, intent: someIntent }),
  fc.record({ kind: fc.constant('line-ended' as const), line: someLine, ended: someDay }),
  fc.record({ kind: fc.constant('line-withdrawn' as const), line: someLine }),
  fc.record({
    kind: fc.constant('care-changed' as const),
    care: fc.constantFrom('on-treatment' as const, 'maintenance' as const, 'off-treatment' as const),
    began: someDay,
  }),
)

interface Drawn {
  readonly patient: number
  readonly result: number
  readonly what: 'change' | 'phase' | 'exclude' | 'back'
  readonly change: WishedChange
  readonly began: ReturnType<typeof addDays>
}

const somebody: fc.Arbitrary<Drawn> = fc.record({
  patient: fc.nat(),
  result: fc.nat(),
  what: fc.constantFrom('change', 'change', 'change', 'phase', 'exclude', 'exclude', 'back'),
  change: someChange,
  began: someDay,
})

async function considered({ patient, result, what, change, began }: Drawn): Promise<Considered> {
  const ids = store.reader.followedPatientIds()
  const patientId = ids[patient % ids.length] ?? ''
  const view = granted(await openPatient(callOf(store, 'physician'), patientId))
  if (what === 'exclude') {
    const of = view.results[result % Math.max(view.results.length, 1)]
    return { patientId, would: of?.excluded == null ? 'exclude' : 'restore', resultId: of?.resultId ?? 0 }
  }
  if (what === 'back') return { patientId, would: 'take-back', changeId: store.reader.courseChangesOf(patientId).at(-1)?.id ?? 0 }
  if (what === 'phase' && view.phaseSince !== null) {
    const phase = view.phase as (typeof PHASES)[number]
    return {
      patientId,
      would: 'change-course',
      change: { kind: 'phase-corrected', was: { phase, on: view.phaseSince }, phase, began, stepsBack: true },
    }
  }
  return { patientId, would: 'change-course', change }
}

function keep(wish: Considered, shown: string) {
  const [call, reason, { patientId }] = [callOf(store, 'physician'), 'Drawn by chance.', wish]
  if (wish.would === 'change-course') return changeCourse(call, { patientId, change: wish.change, reason, shown })
  if (wish.would === 'take-back') return takeBackChange(call, { patientId, changeId: wish.changeId, reason, shown })
  if (wish.would === 'exclude') return excludeResult(call, { patientId, resultId: wish.resultId, reason, shown })
  if (wish.would === 'restore') return restoreResult(call, { patientId, resultId: wish.resultId, reason, shown })
  throw new Error(`${wish.would} is not drawn here`)
}

function assessed(patientId: string) {
  const { reader } = store
  const stored = reader.loadHistory(patientId)
  if (stored === null) throw new Error(`nobody is ${patientId}`)
  return assess(stored.history, planInForce(reader, TODAY), TODAY)
}

// What was shown is compared with what is then true, worked out afresh from what is stored.
test('law: over the invented cohort, what a change was shown to do is what it does', async () => {
  const done = { kept: 0, refused: 0, moved: 0 }
  await fc.assert(
    fc.asyncProperty(somebody, async (drawn) => {
      const wish = await considered(drawn)
      const now = assessed(wish.patientId)
      const shown = await previewConsequence(callOf(store, 'physician'), wish)
      if (!shown.ok) {
        done.refused += 1
        return
      }
      const { notes: _, stamp, ...consequence } = shown.value
      granted(await keep(wish, stamp))
      done.kept += 1
      if (!consequence.isSame) done.moved += 1
      const is = assessed(wish.patientId)
      expect(consequenceView(consequenceOf(now, is))).toEqual(consequence)
      expect(store.reader.standing(wish.patientId)?.window).toBe(consequence.window.would)
    }),
    { numRuns: 120, endOnFailure: true },
  )
  // A law that holds of nothing would hold too.
  expect(done.kept).toBeGreaterThan(40)
  expect(done.moved).toBeGreaterThan(20)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
}, 180_000)
