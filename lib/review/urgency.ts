import { type Finding, STATES, WINDOWS } from '../rules/index.ts'
import { compareDays, type Day, day, daysBetween } from '../time/index.ts'
import { compareText } from './compareText.ts'
import { ranksOf } from './findingOrder.ts'

/** What the order of the list asks of an assessment. Open findings stand most urgent first; what a review answers has no say. */
export interface Placed {
  readonly course: { readonly patient: { readonly id: string } }
  readonly open: readonly Finding[]
  readonly due: readonly { readonly group: string; readonly dueOn: Day }[]
}

/** The place of a patient in the list as columns: all smallest first, except `excess`, which is largest first. */
export interface UrgencyKey {
  readonly windowRank: number
  readonly stateRank: number
  readonly organRank: number
  /** Null on schedule; all with null stand in one window. */
  readonly since: Day | null
  /** Value over threshold of the finding at the top. On schedule it counts back from the next due day, so that the sooner one is the larger. */
  readonly excess: number
  readonly patientId: string
}

const COUNTED_FROM = day('1970-01-01')
/** Below every day of the calendar: nothing is due. */
const NOTHING_DUE = -1e9

/** The earliest due day; null where nothing is due. */
export function firstDueOn(due: Placed['due']): Day | null {
  return due.map((test) => test.dueOn).sort(compareDays)[0] ?? null
}

/**
 * The place of a patient in the list (clinical.md 3.8). `ORDER BY window_rank, state_rank, organ_rank, since, excess DESC, patient_id` over these
 * columns is the order of `compareUrgency`, where the database compares text by its bytes.
 */
export function urgencyKey({ course, open, due }: Placed): UrgencyKey {
  const patientId = course.patient.id
  const top = open[0]
  if (top !== undefined) return { ...ranksOf(top), since: top.since, excess: top.excess, patientId }
  const next = firstDueOn(due)
  return {
    windowRank: WINDOWS.indexOf('on-schedule'),
    stateRank: STATES.length,
    organRank: 1,
    since: null,
    excess: next === null ? NOTHING_DUE : -daysBetween(COUNTED_FROM, next),
    patientId,
  }
}

/** Negative when `a` stands before `b` in the list. */
export function compareUrgency(a: Placed, b: Placed): number {
  const [one, other] = [urgencyKey(a), urgencyKey(b)]
  return (
    one.windowRank - other.windowRank ||
    one.stateRank - other.stateRank ||
    one.organRank - other.organRank ||
    compareDays(one.since ?? COUNTED_FROM, other.since ?? COUNTED_FROM) ||
    other.excess - one.excess ||
    compareText(one.patientId, other.patientId)
  )
}
