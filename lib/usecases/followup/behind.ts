import type { Period } from '../../followup/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type PatientShown, patientsShown, readsPseudonyms } from './patientsShown.ts'
import { type FollowUpWish, readFollowUpWish } from './readWish.ts'

/** What a page that is about to tell who stands behind a figure can say before: of which period, and whom it is for. Tells of nobody, so nothing is logged. */
export interface BehindAsked {
  readonly period: Period
  readonly pseudonymous: boolean
}

/** Some of what stands behind a figure, with whose it is. */
export interface BehindView<R> {
  readonly rows: readonly (R & PatientShown)[]
  /** More were found than are shown. */
  readonly found: number
  readonly revision: number
}

/** Whether it can be told to whoever asks. `wrong` says why what is asked of the period makes no sense; null where it does. */
export async function askBehind(call: Call, wish: Omit<FollowUpWish, 'whatIf'>, wrong: string | null): Promise<Outcome<BehindAsked>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const read = readFollowUpWish(call, { ...wish, whatIf: null })
  if (!read.ok) return read
  if (wrong !== null) return { ok: false, kind: 'invalid', reason: wrong }
  return { ok: true, value: { period: read.value.period, pseudonymous: readsPseudonyms(call) } }
}

/** How one thing stands among the others: the longest first, then the earliest. */
export interface Place {
  readonly patientId: string
  readonly days: number
  readonly since: Day
}

const inOrder = (a: Place, b: Place): number =>
  b.days - a.days || (a.since < b.since ? -1 : a.since > b.since ? 1 : 0) || (a.patientId < b.patientId ? -1 : 1)

interface Behind<T, R> {
  readonly found: readonly T[]
  readonly revision: number
  /** By what it was asked for, as the log has it. */
  readonly by: string
  readonly placeOf: (one: T) => Place
  readonly rowOf: (one: T) => R
}

const SHOWN = 1000

/** Tells what was found with patient numbers for whoever may open patients, else under pseudonyms. Logs whose it is. */
export async function tellBehind<T, R>(
  call: Call,
  { period, pseudonymous }: BehindAsked,
  find: () => Promise<Outcome<Behind<T, R>>>,
): Promise<Outcome<BehindView<R>>> {
  const patients = patientsShown(call)
  if (!patients.ok) return patients
  const told = await find()
  if (!told.ok) return told
  const { found, revision, by, placeOf, rowOf } = told.value
  const shown = found
    .map((one) => ({ one, place: placeOf(one) }))
    .toSorted((a, b) => inOrder(a.place, b.place))
    .slice(0, SHOWN)
  const { from, to, cutOff } = period
  const action = pseudonymous ? 'pseudonymous-follow-up-patients-shown' : 'follow-up-patients-shown'
  const whose = [...new Set(shown.map(({ place }) => place.patientId))]
  await call.store.record(call, () => ({ value: null, events: [{ action, from, to, cutOff, revision, by, patients: whose }] }))
  const rows = shown.map(({ one, place }) => ({ ...patients.value.of(place.patientId), ...rowOf(one) }))
  return { ok: true, value: { rows, found: found.length, revision } }
}
