import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { resultIdentity } from '../../lib/results/index.ts'
import type { HeldRow, Store } from '../../lib/store/index.ts'
import {
  confirmMerge,
  confirmPatient,
  decideHeld,
  declinePatient,
  endMerge,
  excludeResult,
  openPatient,
  proposeMerge,
  proposePatient,
  recheck,
  recordReview,
  resolveHeld,
  restoreResult,
  revokeMapping,
  saveProfile,
  verifyLog,
} from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow } from './clinic.ts'
import { GAP, RULE } from './corrections/relapse.ts'
import { callBy, takeFrom, waitingIds } from './held/queue.ts'
import { FORMATS, STEP, type Step } from './mixSteps.ts'

const nth = <T>(all: readonly T[], index: number): T | undefined => all[index % Math.max(all.length, 1)]
const as = (store: Store, role: Role) => callOf(store, role)

async function decide(store: Store, { at: index, alike, remember }: Extract<Step, { do: 'decide' }>) {
  const asked = store.reader.heldQueue().filter(({ reason }) => ['unknown-code', 'unit-unknown', 'unit-missing'].includes(reason))
  const row = nth(asked, index)
  if (row === undefined) return
  const act = row.reason === 'unknown-code' ? ({ kind: 'code', code: '33358-3' } as const) : ({ kind: 'unit', unit: 'g/L' } as const)
  await decideHeld(as(store, 'navigator'), { heldId: row.id, act, alike, except: [], remember, reason: 'asked' })
}

async function whose(store: Store, { at: index, to, alike, remember, confirm }: Extract<Step, { do: 'whose' }>) {
  const row = nth(
    store.reader.heldQueue().filter(({ reason }) => reason === 'unknown-patient' || reason === 'patient-unclear'),
    index,
  )
  if (row === undefined) return
  await proposePatient(callBy(store, 'ann'), { heldId: row.id, patientId: to, alike, remember, reason: 'asked' })
  if (confirm === 'yes') await confirmPatient(callBy(store, 'ben'), { heldId: row.id })
  if (confirm === 'no') await declinePatient(callBy(store, 'ben'), { heldId: row.id, reason: 'not so' })
}

async function review(store: Store, index: number) {
  const patientId = nth(store.reader.patientIds(), index) ?? 'P1'
  const { findings } = granted(await openPatient(as(store, 'physician'), patientId))
  const open = findings.filter(({ answered }) => answered === null)
  const finding = open.find(({ rule }) => rule === RULE) ?? nth(open, index)
  if (finding !== undefined)
    await recordReview(as(store, 'navigator'), { patientId, rule: finding.rule, key: finding.key, note: 'seen', bringBackOn: null })
}

async function exclude(store: Store, { at: index, patient: patientId, back }: Extract<Step, { do: 'exclude' }>) {
  const result = nth(store.reader.loadHistory(patientId)?.history.results ?? [], index)
  if (result === undefined) return
  const wish = { patientId, resultId: result.id, reason: 'spurious' }
  await (back ? restoreResult : excludeResult)(as(store, 'physician'), wish)
}

async function join(store: Store, fromId: string, intoId: string) {
  const proposed = await proposeMerge(as(store, 'navigator'), { fromId, intoId, reason: 'one person' })
  if (proposed.ok) granted(await confirmMerge(as(store, 'physician'), { mergeId: proposed.value.mergeId }))
}

async function act(store: Store, step: Step): Promise<void> {
  if (step.do === 'file') await takeFrom(store, step.source, [FORMATS[step.format](step.rows)])
  if (step.do === 'profile') {
    const { unit, comma, adds: addsPatients } = step
    const given = { source: 'north', units: { '33358-3': unit }, decimalSign: comma ? 'comma' : 'point', timeZone: 'Europe/Berlin', addsPatients }
    await saveProfile(as(store, 'administrator'), { given, reason: 'told' })
  }
  if (step.do === 'decide') await decide(store, step)
  if (step.do === 'settle') {
    const heldId = nth(waitingIds(store), step.at)
    const kind = step.refuse ? 'refuse' : 'file'
    if (heldId === undefined) return
    if (step.alike) await decideHeld(as(store, 'navigator'), { heldId, act: { kind }, alike: true, except: [], remember: false, reason: 'so' })
    else await resolveHeld(as(store, 'navigator'), heldId, kind, 'so')
  }
  if (step.do === 'whose') await whose(store, step)
  if (step.do === 'revoke') {
    const mapping = nth(
      store.reader.allMappings().filter(({ revoked }) => revoked === null),
      step.at,
    )
    if (mapping !== undefined) granted(await revokeMapping(as(store, 'navigator'), { mappingId: mapping.id, reason: 'wrong' }))
  }
  if (step.do === 'join') await join(store, step.from, step.into)
  if (step.do === 'part') {
    const merge = nth(
      store.reader.merges().filter(({ decision, endedAt }) => decision === 'confirmed' && endedAt === null),
      step.at,
    )
    if (merge !== undefined) granted(await endMerge(as(store, 'navigator'), { mergeId: merge.id, reason: 'two people' }))
  }
  if (step.do === 'review') await review(store, step.at)
  if (step.do === 'exclude') await exclude(store, step)
}

const placeOf = ({ fileId, line, kind, fields }: Pick<HeldRow, 'fileId' | 'line' | 'kind' | 'fields'>) => JSON.stringify([fileId, line, kind, fields])

/** Every row is in one place: counts, waits or was decided on; no result counts twice; standings and log are as they should be. */
async function expectWhole(store: Store): Promise<void> {
  const { reader } = store
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  expect(granted(await verifyLog(callOf(store))).firstBad).toBeNull()
  for (const { id, rows, rowsInFile, filed, known, corrected, held, refused } of reader.recentFiles(1000)) {
    expect([filed + known + corrected + held + refused, rows]).toEqual([rows, rowsInFile])
    expect([reader.heldRowsOfFile(id).length, [...reader.problemRows(id)].length]).toEqual([held, held + refused])
  }
  const queue = reader.heldQueue()
  const waiting = queue.map(placeOf)
  expect(waiting).toEqual([...new Set(waiting)])
  const counting = reader.patientIds().flatMap((id) => reader.loadHistory(id)?.history.results.map((result) => ({ id, result })) ?? [])
  const identities = counting.map(({ id, result }) => resultIdentity({ ...result, patientId: id }))
  expect(identities).toEqual([...new Set(identities)])
  const places = counting.map(
    ({
      result: {
        provenance: { fileId, line },
      },
    }) => `${fileId}:${line}`,
  )
  expect(places.filter((place) => queue.some(({ fileId, line }) => `${fileId}:${line}` === place))).toEqual([])
  for (const patientId of ['P1', 'P2', 'P3', 'X1']) {
    expect(reader.versionsOfPatient(patientId).filter(({ current, takenBack }) => current && takenBack)).toEqual([])
  }
}

/** Patients of whom somebody reviewed the progression that is told now. */
async function reviewed(store: Store): Promise<string[]> {
  const told = await Promise.all(
    store.reader.patientIds().map(async (patientId) => {
      const { findings } = granted(await openPatient(as(store, 'physician'), patientId))
      return findings.some(({ rule, answered }) => rule === RULE && answered !== null) ? [patientId] : []
    }),
  )
  return told.flat()
}

/** It is told still, now or as past, or it comes back to whoever reviewed it. A progression is what a later sample does not undo. */
async function expectTold(store: Store, patientIds: readonly string[]): Promise<void> {
  for (const patientId of patientIds) {
    const { findings, history } = granted(await openPatient(as(store, 'physician'), patientId))
    expect([...findings, ...history].some(({ rule }) => rule === RULE || rule === GAP)).toBe(true)
  }
}

test('whatever comes in whatever order, no row is lost or counts twice, and nothing reviewed vanishes in silence', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(STEP, { minLength: 6, maxLength: 22 }), async (steps) => {
      const { store, dispose } = await freshStore()
      const people = ['P1', 'P2', 'P3'].map((patient_id) => patientRow({ patient_id }))
      const level = ['2024-01-18', '2025-06-01', '2025-12-01'].map((on, index) =>
        resultRow({ collected_at: on, accession: on, value: index === 0 ? '40.0' : '10.0' }),
      )
      await takeFrom(store, null, [csv('patients.csv', people), csv('course.csv', courseRows()), csv('level.csv', level)])
      for (const step of steps) {
        const before = await reviewed(store)
        await act(store, step)
        await expectWhole(store)
        if (['file', 'settle', 'decide', 'whose', 'revoke', 'profile'].includes(step.do)) await expectTold(store, before)
      }
      await dispose()
    }),
    { numRuns: 10 },
  )
}, 300_000)
