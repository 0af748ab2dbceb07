import { WAITING, type WaitingKind } from '../../followup/index.ts'
import { ruleTitle } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { FoundWaiting } from './auditPart.ts'
import { type PatientShown, patientsShown, readsPseudonyms } from './patientsShown.ts'
import type { OccasionsAsked } from './readOccasions.ts'
import { type FollowUpWish, readFollowUpWish } from './readWish.ts'
import { workOut } from './workOut.ts'

/** What waits behind a figure of an audit. */
export interface WaitingWish extends Omit<FollowUpWish, 'whatIf'> {
  readonly what: WaitingKind
}

/** One thing that waits, and whose it is. */
export interface WaitingRow extends PatientShown {
  /** The test group, or the title of the finding. */
  readonly what: string
  readonly since: Day
  readonly until: Day
  readonly days: number
}

export interface WaitingView {
  readonly rows: readonly WaitingRow[]
  /** More were found than are shown. */
  readonly found: number
  readonly revision: number
}

const SHOWN = 1000

const longestFirst = (a: FoundWaiting, b: FoundWaiting): number =>
  b.days - a.days || (a.since < b.since ? -1 : a.since > b.since ? 1 : 0) || (a.patientId < b.patientId ? -1 : 1)

/** Whether what waits can be told to whoever asks. Tells of nobody, so nothing is logged. */
export async function askWaiting(call: Call, { what, ...wish }: WaitingWish): Promise<Outcome<OccasionsAsked>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const read = readFollowUpWish(call, { ...wish, whatIf: null })
  if (!read.ok) return read
  if (!WAITING.includes(what)) return { ok: false, kind: 'invalid', reason: `The audit does not tell what is "${what}".` }
  return { ok: true, value: { period: read.value.period, pseudonymous: readsPseudonyms(call) } }
}

/**
 * What waits behind a figure, longest first: the overdue tests at the end of the period, its findings that nobody answered, or those without a second sample.
 * With patient numbers for whoever may open patients, else under pseudonyms. Logs whose it is.
 */
export async function readWaiting(call: Call, wish: WaitingWish, onProgress?: (progress: Progress) => void): Promise<Outcome<WaitingView>> {
  const asked = await askWaiting(call, wish)
  if (!asked.ok) return asked
  const { period, pseudonymous } = asked.value
  const patients = patientsShown(call)
  if (!patients.ok) return patients
  const { revision, waiting } = await workOut(call, { period, whatIf: null }, { waiting: wish.what }, onProgress)
  const shown = waiting.toSorted(longestFirst).slice(0, SHOWN)
  const action = pseudonymous ? 'pseudonymous-follow-up-patients-shown' : 'follow-up-patients-shown'
  const whose = [...new Set(shown.map(({ patientId }) => patientId))]
  await call.store.record(call, () => ({ value: null, events: [{ action, ...period, revision, by: wish.what, patients: whose }] }))
  const rows = shown.map(({ patientId, what, since, until, days }) => ({
    ...patients.value.of(patientId),
    ...{ what: wish.what === 'overdue' ? what : ruleTitle(what as Parameters<typeof ruleTitle>[0]), since, until, days },
  }))
  return { ok: true, value: { rows, found: waiting.length, revision } }
}
