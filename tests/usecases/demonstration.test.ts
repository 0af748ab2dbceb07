import { expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import type { Decision } from '../../lib/results/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { openPatient, recheck, showList } from '../../lib/usecases/index.ts'
import { callOf, granted } from './accounts/persons.ts'
import { TODAY } from './clinic.ts'
import { filledStore } from './cohort.ts'

const QUERY = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 100 } as const

test('the invented cohort comes with a few decisions of its nurse and its physician, and stands about where it stood', async () => {
  const { store, dispose } = await filledStore()
  const histories = store.reader.patientIds().flatMap((id) => store.reader.loadHistory(id)?.history ?? [])
  const decisions: readonly Decision[] = histories.flatMap((history) => history.decisions)
  const made = new Set(decisions.map(({ kind, by }) => `${kind} by the ${by}`))
  expect(made).toContain('review by the nurse')
  for (const one of made) expect(['review by the nurse', 'attribution by the physician', 'exclusion by the physician']).toContain(one)
  const moved = histories.filter((history) => {
    const [now, without] = [history.decisions, []].map((some) => assess({ ...history, decisions: some }, DEFAULT_PLAN, TODAY).window)
    return now !== without
  })
  expect(moved.length).toBeGreaterThan(0)
  expect(moved.length).toBeLessThanOrEqual(7)
  const { rows } = granted(await showList(callOf(store, 'navigator'), QUERY))
  expect(rows.some(({ answered }) => answered > 0)).toBe(true)
  const logged = store.reader.trailPage({ actor: 'nurse', limit: 1000, offset: 0 }).rows.map(({ action, role }) => [action, role])
  expect(logged).toContainEqual(['review-recorded', 'navigator'])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  const back = histories.filter(({ changes }) => changes.some(({ what, decisions: about }) => what === 'removed' && about.length > 0))
  expect(back).toHaveLength(1)
  const call = callOf(store, 'navigator')
  const mine = granted(await showList({ ...call, actor: { ...call.actor, name: 'nurse' } }, { ...QUERY, mine: true })).rows
  expect(mine.map(({ patientId, comesBackToYou }) => [patientId, comesBackToYou])).toEqual([[back[0]?.patient.id, true]])
  await dispose()
})

test('a physician of the invented cohort changed two courses, each with a reason, and the patient page shows it', async () => {
  const { store, dispose } = await filledStore()
  const histories = store.reader.patientIds().flatMap((id) => store.reader.loadHistory(id)?.history ?? [])
  const changed = histories.filter(({ courseChanges }) => courseChanges.length > 0)
  expect(changed.flatMap(({ courseChanges }) => courseChanges.map(({ kind, by }) => `${kind} by the ${by}`)).toSorted()).toEqual([
    'care-changed by the physician',
    'line-ended by the physician',
  ])
  for (const { patient, decisions, courseChanges } of changed) {
    expect(decisions).toEqual([])
    const { courseRecord, findings } = granted(await openPatient(callOf(store, 'navigator'), patient.id))
    expect(courseRecord.changes.map(({ by, reason }) => [by, reason])).toEqual(courseChanges.map(({ by, text }) => [by, text]))
    // What led to the change stays: the end of a line takes no danger back.
    if (courseChanges[0]?.kind === 'line-ended') expect(findings.map(({ rule }) => rule)).toContain('danger-platelets')
    else expect([courseRecord.care, findings]).toEqual(['maintenance', []])
  }
  const logged = store.reader.trailPage({ actor: 'physician', limit: 1000, offset: 0 }).rows.filter(({ action }) => action === 'course-changed')
  expect(logged).toHaveLength(2)
  await dispose()
})
