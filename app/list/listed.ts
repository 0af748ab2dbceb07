import { WINDOWS, type Window } from '../../lib/rules/index.ts'
import type { CohortRow, ListRow, RowOfRound } from '../../lib/usecases/index.ts'

type Standing = 'phase' | 'care' | 'window' | 'state' | 'certainty' | 'why' | 'more' | 'answered' | 'cautions' | 'comesBackToYou' | 'strip'
type Waiting = 'since' | 'daysWaiting' | 'nextDueOn' | 'handedOver' | 'noted'
type AsItIs = Pick<ListRow, 'position' | 'name' | 'clinician' | Standing | Waiting>

/**
 * What the table shows of a place of the list, and nothing else. A page sends each row twice, as HTML and to the browser's part: every field that is not
 * shown costs as much as one that is.
 */
export interface Listed extends AsItIs {
  /** The patient's number, or the pseudonym. */
  readonly id: string
  /** What stands for the patient in an address; null under a pseudonym. */
  readonly address: string | null
  readonly daysOnList: number | null
  /** What is latest, and how many test groups are late beside it. */
  readonly late: { readonly days: number; readonly group: string; readonly more: number } | null
  /** What is another than at the end of the round the list is compared with. */
  readonly news: RowOfRound['since']
  /** Where the patient stood then, if that was later than now. */
  readonly soonerThan: Window | null
  readonly has: { readonly name: string; readonly disabled: boolean; readonly isYou: boolean } | null
}

function lateOf({ overdue }: ListRow | CohortRow): Listed['late'] {
  const worst = overdue.toSorted((a, b) => b.daysLate - a.daysLate)[0]
  return worst === undefined ? null : { days: worst.daysLate, group: worst.group, more: overdue.length - 1 }
}

function soonerThan(window: Window, then: Window | null): Window | null {
  return then !== null && WINDOWS.indexOf(window) < WINDOWS.indexOf(then) ? then : null
}

function hasOf(round: RowOfRound | null): Listed['has'] {
  const { to = null, disabled = false, isYou = false } = round?.assigned ?? {}
  return to === null ? null : { name: to, disabled, isYou }
}

/** A place of the list, with names or under a pseudonym, as the table shows it. */
export function listed(row: ListRow | CohortRow): Listed {
  const {
    position,
    clinician,
    phase,
    care,
    window,
    state,
    certainty,
    why,
    more,
    answered,
    cautions,
    since,
    daysWaiting,
    nextDueOn,
    strip,
    handedOver,
  } = row
  const who = 'pseudonym' in row ? { id: row.pseudonym, address: null, name: null } : { id: row.patientId, address: row.address, name: row.name }
  const round = 'round' in row ? (row.round ?? null) : null
  return {
    ...{ position, ...who, clinician, phase, care, window, state, certainty, why, more, answered, cautions, since, daysWaiting, nextDueOn, strip },
    comesBackToYou: row.comesBackToYou === true,
    daysOnList: round?.daysOnList ?? null,
    late: lateOf(row),
    noted: row.noted,
    handedOver: handedOver === null ? null : { by: handedOver.by, on: handedOver.on },
    news: round?.since ?? null,
    soonerThan: soonerThan(window, round?.since?.windowThen ?? null),
    has: hasOf(round),
  }
}
