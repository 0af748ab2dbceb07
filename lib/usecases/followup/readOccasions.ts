import { DIMENSIONS, type Dimension, type Figures, OTHERS, type Period, type Verdict } from '../../followup/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { Found } from './auditPart.ts'
import { type PatientShown, patientsShown, readsPseudonyms } from './patientsShown.ts'
import { type FollowUpWish, type ReadFollowUpWish, readFollowUpWish } from './readWish.ts'
import { workOut } from './workOut.ts'

/** A group of an audit as it stood in its table, and of its tests perhaps only those with one verdict. */
export interface OccasionsWish extends Omit<FollowUpWish, 'whatIf'> {
  readonly by: Dimension
  readonly key: string
  readonly verdict: Extract<Verdict, 'on-time' | 'late' | 'missed'> | null
}

/** One test that was due, and whose it was. */
export interface OccasionRow extends PatientShown {
  readonly group: string
  readonly dueOn: Day
  readonly graceEndsOn: Day
  readonly doneOn: Day | null
  readonly verdict: string
  readonly daysLate: number
  readonly phase: string | null
  readonly planVersion: string
}

export interface OccasionsView {
  readonly rows: readonly OccasionRow[]
  /** More were found than are shown. */
  readonly found: number
  readonly revision: number
}

const SHOWN = 1000

const longestLateFirst = (a: Found, b: Found): number =>
  b.daysLate - a.daysLate || (a.dueOn < b.dueOn ? -1 : a.dueOn > b.dueOn ? 1 : 0) || (a.patientId < b.patientId ? -1 : 1)

interface Behind {
  readonly figures: Figures
  readonly revision: number
  readonly found: readonly Found[]
}

/** The figures with the tests behind a row of theirs; null where there is no such row. Which groups `others` stands for is known only once all are counted. */
async function behind(
  call: Call,
  wish: ReadFollowUpWish,
  { by, key, verdict }: Pick<OccasionsWish, 'by' | 'key' | 'verdict'>,
  onProgress?: (progress: Progress) => void,
): Promise<Behind | null> {
  const first = await workOut(call, wish, key === OTHERS ? null : { by, keys: [key], verdict }, onProgress)
  const row = first.figures.by[by].find((group) => group.key === key)
  if (row === undefined) return null
  return key === OTHERS ? workOut(call, wish, { by, keys: row.keys, verdict }, onProgress) : first
}

/** What a page that is about to tell those tests can say before: whom it is for, and that what it was asked makes sense. Tells of nobody, so nothing is logged. */
export interface OccasionsAsked {
  readonly period: Period
  readonly pseudonymous: boolean
}

/** Whether these tests can be told to whoever asks. */
export async function askOccasions(call: Call, { by, key: _, verdict: __, ...wish }: OccasionsWish): Promise<Outcome<OccasionsAsked>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const read = readFollowUpWish(call, { ...wish, whatIf: null })
  if (!read.ok) return read
  if (!DIMENSIONS.includes(by)) return { ok: false, kind: 'invalid', reason: `The audit is not told apart by "${by}".` }
  return { ok: true, value: { period: read.value.period, pseudonymous: readsPseudonyms(call) } }
}

/**
 * The tests behind one row of the audit's tables, latest first: with patient numbers for whoever may open patients, else under pseudonyms. Groups that are too
 * small to be shown can be asked for only together, as they are shown. Logs whose they were.
 */
export async function readOccasions(
  call: Call,
  { by, key, verdict, ...wish }: OccasionsWish,
  onProgress?: (progress: Progress) => void,
): Promise<Outcome<OccasionsView>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const read = readFollowUpWish(call, { ...wish, whatIf: null })
  if (!read.ok) return read
  if (!DIMENSIONS.includes(by)) return { ok: false, kind: 'invalid', reason: `The audit is not told apart by "${by}".` }
  const patientsOf = patientsShown(call)
  if (!patientsOf.ok) return patientsOf
  const told = await behind(call, read.value, { by, key, verdict }, onProgress)
  if (told === null) {
    return {
      ok: false,
      kind: 'not-found',
      reason: `The audit shows no group "${key}" by ${by}; groups that are too small stand together as "${OTHERS}".`,
    }
  }
  const { revision } = told
  const all = told.found.toSorted(longestLateFirst)
  const shown = all.slice(0, SHOWN)
  const patients = [...new Set(shown.map(({ patientId }) => patientId))]
  const { from, to, cutOff } = read.value.period
  const action = patientsOf.value.pseudonymous ? 'pseudonymous-follow-up-patients-shown' : 'follow-up-patients-shown'
  await call.store.record(call, () => ({ value: null, events: [{ action, from, to, cutOff, revision, by, patients }] }))
  const rows = shown.map(({ patientId, group, dueOn, graceEndsOn, doneOn, verdict: of, daysLate, phase, planVersion }) => ({
    ...patientsOf.value.of(patientId),
    ...{ group, dueOn, graceEndsOn, doneOn, verdict: of, daysLate, phase, planVersion },
  }))
  return { ok: true, value: { rows, found: all.length, revision } }
}
