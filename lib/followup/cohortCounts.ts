import { DIMENSIONS, type Dimension, keyOf } from './dimension.ts'
import { countFlagged, type FlaggedCounts, noneFlagged, OVERTURNED } from './flagged.ts'
import { EXCLUSIONS, type Exclusion } from './occasion.ts'
import { addTally, count, emptyTally, type Tally } from './onTime.ts'
import type { PatientAudit } from './patientAudit.ts'
import type { PersonDays } from './upToDate.ts'

/** What a cohort adds up to, as it grows. Plain data: parts of a cohort can be counted apart, in other threads, and added. */
export interface CohortCounts {
  /** Patients with any day followed, or any test due, in the period. */
  patients: number
  leftUnknown: number
  total: Tally
  by: Record<Dimension, Map<string, Tally>>
  pending: number
  excluded: Record<Exclusion, number>
  /** Days past the due day of everything overdue at the end of the period, and whose it is. */
  overdueAges: number[]
  overduePatients: number
  personDays: PersonDays[]
  flagged: FlaggedCounts
}

export function noCounts(): CohortCounts {
  return {
    patients: 0,
    leftUnknown: 0,
    total: emptyTally(),
    by: Object.fromEntries(DIMENSIONS.map((dimension) => [dimension, new Map<string, Tally>()])) as CohortCounts['by'],
    pending: 0,
    excluded: Object.fromEntries(EXCLUSIONS.map((exclusion) => [exclusion, 0])) as CohortCounts['excluded'],
    overdueAges: [],
    overduePatients: 0,
    personDays: [],
    flagged: noneFlagged(),
  }
}

function tallyOf(tallies: Map<string, Tally>, key: string): Tally {
  let tally = tallies.get(key)
  if (tally === undefined) {
    tally = emptyTally()
    tallies.set(key, tally)
  }
  return tally
}

/** Adds one patient. */
export function countPatient(counts: CohortCounts, { occasions, overdue, days, flagged, watchedUntil, leftUnknown }: PatientAudit): void {
  if (days.total > 0 || occasions.length > 0) counts.patients += 1
  if (leftUnknown) counts.leftUnknown += 1
  for (const occasion of occasions) {
    if (occasion.verdict === 'pending') counts.pending += 1
    if (occasion.excluded !== null) counts.excluded[occasion.excluded] += 1
    if (occasion.verdict === 'pending' || occasion.verdict === 'excluded') continue
    count(counts.total, occasion)
    for (const dimension of DIMENSIONS) count(tallyOf(counts.by[dimension], keyOf(dimension, occasion)), occasion)
  }
  for (const { age } of overdue) counts.overdueAges.push(age)
  if (overdue.length > 0) counts.overduePatients += 1
  if (days.total > 0) counts.personDays.push(days)
  for (const one of flagged) countFlagged(counts.flagged, one, watchedUntil)
}

function pushAll<T>(into: T[], from: readonly T[]): void {
  for (const one of from) into.push(one)
}

/** Adds what was counted apart. */
export function addCounts(into: CohortCounts, from: CohortCounts): void {
  into.patients += from.patients
  into.leftUnknown += from.leftUnknown
  addTally(into.total, from.total)
  for (const dimension of DIMENSIONS) for (const [key, tally] of from.by[dimension]) addTally(tallyOf(into.by[dimension], key), tally)
  into.pending += from.pending
  for (const exclusion of EXCLUSIONS) into.excluded[exclusion] += from.excluded[exclusion]
  pushAll(into.overdueAges, from.overdueAges)
  into.overduePatients += from.overduePatients
  pushAll(into.personDays, from.personDays)
  into.flagged.found += from.flagged.found
  into.flagged.answered += from.flagged.answered
  for (const how of OVERTURNED) into.flagged.overturned[how] += from.flagged.overturned[how]
  pushAll(into.flagged.toReview, from.flagged.toReview)
  pushAll(into.flagged.toRepeat, from.flagged.toRepeat)
}
