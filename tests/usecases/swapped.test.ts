import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import type { Outcome } from '../../lib/usecases/index.ts'
import * as usecases from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { granted } from './accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from './clinic.ts'
import { as, recent, resultId, seen, takeDamaged, written } from './decisions/damaged.ts'

/** Numbers of things that belong together, and of things of others. */
interface Ids {
  readonly store: Store
  /** A finding of P1, as its page names it. */
  readonly finding: { readonly rule: string; readonly key: string }
  /** Another cause recorded for a finding of P1. */
  readonly attributionId: number
  /** A change of the course of P1. */
  readonly changeId: number
  readonly resultOfP1: number
  readonly resultOfP2: number
  /** An excluded result of P1. */
  readonly excludedOfP1: number
  readonly heldId: number
  readonly decidedHeldId: number
  readonly mergeId: number
  readonly declinedMergeId: number
  readonly proposal: number
  readonly addressOfP1: string
  readonly sessionId: string
  readonly sheetOfP1: number
  /** The digest of a sheet shown of P1. */
  readonly digestOfP1: string
}

const SHEET = { chosen: ['creatinine'], own: '', visitOn: null } as const
const TYPED = 'swapped by somebody'

/** Every use case that is given numbers of two things that must belong together, or of somebody else's, asked with the wrong one. */
const SWAPS: readonly (readonly [name: string, ask: (ids: Ids) => Promise<Outcome<unknown>>])[] = [
  [
    'recordReview: a finding of another patient',
    ({ store, finding }) => usecases.recordReview(as(store, 'navigator'), { patientId: 'P2', ...finding, note: TYPED, bringBackOn: null }),
  ],
  [
    'recordAnswers: a finding of another patient',
    ({ store, finding }) =>
      usecases.recordAnswers(as(store, 'navigator'), { patientId: 'P2', findings: [finding], did: 'seen', note: TYPED, bringBackOn: null }),
  ],
  [
    'takeAnswersBack: what is no answer, of the same patient',
    ({ store, attributionId }) => usecases.takeAnswersBack(as(store, 'navigator'), { patientId: 'P1', decisionIds: [attributionId] }),
  ],
  [
    'recordAttribution: a finding of another patient',
    ({ store, finding }) => usecases.recordAttribution(as(store, 'physician'), { patientId: 'P2', ...finding, cause: TYPED }),
  ],
  [
    'withdrawAttribution: a cause of another patient',
    ({ store, attributionId }) => usecases.withdrawAttribution(as(store, 'physician'), { patientId: 'P2', attributionId, reason: TYPED }),
  ],
  [
    'excludeResult: a result of another patient',
    ({ store, resultOfP2 }) => usecases.excludeResult(as(store, 'physician'), { patientId: 'P1', resultId: resultOfP2, reason: TYPED }),
  ],
  [
    'restoreResult: a result of another patient',
    ({ store, excludedOfP1 }) => usecases.restoreResult(as(store, 'physician'), { patientId: 'P2', resultId: excludedOfP1, reason: TYPED }),
  ],
  [
    'restoreResult: a result that was not excluded',
    ({ store, resultOfP1 }) => usecases.restoreResult(as(store, 'physician'), { patientId: 'P1', resultId: resultOfP1, reason: TYPED }),
  ],
  [
    'takeBackChange: a change of another patient',
    ({ store, changeId }) => usecases.takeBackChange(as(store, 'physician'), { patientId: 'P2', changeId, reason: TYPED }),
  ],
  [
    'previewConsequence: a result of another patient',
    ({ store, resultOfP2 }) => usecases.previewConsequence(as(store, 'physician'), { patientId: 'P1', would: 'exclude', resultId: resultOfP2 }),
  ],
  [
    'changeCourse: a phase of another patient',
    ({ store }) =>
      usecases.changeCourse(as(store, 'physician'), {
        patientId: 'P3',
        change: { kind: 'phase-withdrawn', was: { phase: 'active', on: day('2024-01-10') } },
        reason: TYPED,
      }),
  ],
  ['confirmPatient: a held row nobody proposed a patient for', ({ store, heldId }) => usecases.confirmPatient(as(store, 'physician'), { heldId })],
  ['declinePatient: the same', ({ store, heldId }) => usecases.declinePatient(as(store, 'physician'), { heldId, reason: TYPED })],
  [
    'proposePatient: a patient who is not there',
    ({ store, heldId }) =>
      usecases.proposePatient(as(store, 'navigator'), { heldId, patientId: 'P-none', alike: false, remember: false, reason: TYPED }),
  ],
  [
    'decideHeld: a row that was decided',
    ({ store, decidedHeldId }) =>
      usecases.decideHeld(as(store, 'navigator'), {
        heldId: decidedHeldId,
        act: { kind: 'refuse' },
        alike: false,
        except: [],
        remember: false,
        reason: TYPED,
      }),
  ],
  ['resolveHeld: a row that was decided', ({ store, decidedHeldId }) => usecases.resolveHeld(as(store, 'navigator'), decidedHeldId, 'refuse', TYPED)],
  [
    'openSheetAt: a sheet of another patient',
    ({ store, sheetOfP1 }) => usecases.openSheetAt(as(store, 'navigator'), store.reader.patientAddress('P2'), sheetOfP1),
  ],
  [
    'printSheet: a sheet of another patient',
    ({ store, sheetOfP1 }) => usecases.printSheet(as(store, 'navigator'), { patientId: 'P2', sheetId: sheetOfP1 }),
  ],
  [
    'withdrawSheet: a sheet of another patient',
    ({ store, sheetOfP1 }) => usecases.withdrawSheet(as(store, 'physician'), { patientId: 'P2', sheetId: sheetOfP1, reason: TYPED }),
  ],
  [
    'releaseSheet: what was shown of another patient',
    ({ store, digestOfP1 }) => usecases.releaseSheet(as(store, 'physician'), { patientId: 'P2', ...SHEET, digest: digestOfP1, afterSheet: 0 }),
  ],
  ['confirmMerge: one’s own', ({ store, mergeId }) => usecases.confirmMerge(as(store, 'navigator'), { mergeId })],
  [
    'confirmMerge: one that was declined',
    ({ store, declinedMergeId }) => usecases.confirmMerge(as(store, 'physician'), { mergeId: declinedMergeId }),
  ],
  ['endMerge: one that waits', ({ store, mergeId }) => usecases.endMerge(as(store, 'physician'), { mergeId, reason: TYPED })],
  ['revokeMapping: one that is not there', ({ store }) => usecases.revokeMapping(as(store, 'navigator'), { mappingId: 999, reason: TYPED })],
  [
    'withdrawProposal: somebody else’s',
    ({ store, proposal }) => {
      const call = as(store, 'physician')
      return usecases.withdrawProposal({ ...call, actor: { ...call.actor, name: 'another physician' } }, { version: proposal })
    },
  ],
  ['publishPlan: the version in force', ({ store }) => usecases.publishPlan(as(store, 'administrator'), { version: 1, from: '2026-12-01' })],
  ['signOut: another person’s session', ({ store, sessionId }) => usecases.signOut(as(store, 'navigator'), sessionId)],
  ['openPatientAt: the number in place of the address', ({ store }) => usecases.openPatientAt(as(store, 'navigator'), 'P1')],
  ['openPatient: the address in place of the number', ({ store, addressOfP1 }) => usecases.openPatient(as(store, 'navigator'), addressOfP1)],
  ['patientMergesAt: the number in place of the address', ({ store }) => usecases.patientMergesAt(as(store, 'navigator'), 'P1')],
]

let ids: Ids
let dispose: () => Promise<void>
beforeAll(async () => {
  const fresh = await freshStore()
  const { store } = fresh
  dispose = fresh.dispose
  await takeDamaged(store, [
    recent('33358-3', '12', 'g/L'),
    resultRow({ code: 'LOCAL-1', accession: 'held 1' }),
    resultRow({ code: 'LOCAL-2', accession: 'held 2' }),
  ])
  await take(store, [csv('course2.csv', courseRows('P2')), csv('third.csv', [patientRow({ patient_id: 'P3' })])])
  const physician = as(store, 'physician')
  const navigator = as(store, 'navigator')
  const { findings } = await seen(store)
  const attributable = findings.find((one) => one.attributable)
  if (attributable === undefined) throw new Error('P1 has no finding another cause could have')
  granted(await usecases.recordAttribution(physician, { patientId: 'P1', rule: attributable.rule, key: attributable.key, cause: 'Bleeding' }))
  const excludedOfP1 = resultId(store, '12')
  granted(await usecases.excludeResult(physician, { patientId: 'P1', resultId: excludedOfP1, reason: 'Drawn above a drip' }))
  granted(
    await usecases.changeCourse(physician, { patientId: 'P1', change: { kind: 'line-ended', line: 1, ended: day('2026-11-01') }, reason: TYPED }),
  )
  const changeId = store.reader.courseChangesOf('P1')[0]?.id ?? 0
  const attributionId = (await seen(store)).findings.flatMap(({ attribution }) => attribution ?? [])[0]?.id ?? 0
  const [held, decided] = store.reader.heldQueue().toSorted((a, b) => a.id - b.id)
  if (held === undefined || decided === undefined) throw new Error('two rows should wait')
  granted(await usecases.resolveHeld(navigator, decided.id, 'refuse', 'not ours'))
  const declined = granted(await usecases.proposeMerge(navigator, { fromId: 'P3', intoId: 'P2', reason: 'Seemed alike' }))
  granted(await usecases.declineMerge(physician, { mergeId: declined.mergeId, reason: 'Two persons' }))
  const merge = granted(await usecases.proposeMerge(navigator, { fromId: 'P3', intoId: 'P1', reason: 'Seem alike' }))
  const plan = granted(
    await usecases.proposePlan(physician, { changes: { 'treatment.0.every': { days: 21 } }, from: '2026-12-01', basedOn: 1, note: 'three weeks' }),
  )
  const { digest, afterSheet } = granted(await usecases.previewSheet(physician, { patientId: 'P1', ...SHEET }))
  const { sheetId } = granted(await usecases.releaseSheet(physician, { patientId: 'P1', ...SHEET, digest, afterSheet }))
  ids = {
    store,
    finding: { rule: attributable.rule, key: attributable.key },
    attributionId,
    changeId,
    excludedOfP1,
    resultOfP1: resultId(store, '100'),
    resultOfP2: resultId(store, '90', 'P2'),
    heldId: held.id,
    decidedHeldId: decided.id,
    mergeId: merge.mergeId,
    declinedMergeId: declined.mergeId,
    proposal: plan.version,
    addressOfP1: store.reader.patientAddress('P1'),
    sessionId: 'a session of somebody else',
    sheetOfP1: sheetId,
    digestOfP1: digest,
  }
})
afterAll(() => dispose())

describe('a number of something else', () => {
  test.each(SWAPS)('%s: refused, and nothing is changed', async (_, ask) => {
    const before = JSON.stringify(written(ids.store))
    const outcome = await ask(ids)
    expect(outcome).toMatchObject({ ok: false, reason: expect.stringMatching(/.{10}/) })
    expect(JSON.stringify(written(ids.store))).toBe(before)
  })

  test('is asked of use cases that exist', () => {
    const asked = new Set(SWAPS.map(([name]) => name.split(':')[0]))
    expect([...asked].filter((name) => !(name !== undefined && name in usecases))).toEqual([])
  })
})
