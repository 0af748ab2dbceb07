import { type Bin, type Coverage, personTimeCoverage, wilsonInterval } from '../statistics/index.ts'
import type { CohortCounts } from './cohortCounts.ts'
import { DIMENSIONS, type Dimension } from './dimension.ts'
import type { Overturned } from './flagged.ts'
import { lateBins } from './lateBins.ts'
import { type MonthChart, monthChart } from './monthChart.ts'
import type { Exclusion } from './occasion.ts'
import { type OnTime, onTimeOf } from './onTime.ts'
import type { Period } from './patientAudit.ts'
import type { PlanChange } from './planChanges.ts'
import { type GroupRow, groupRows } from './smallGroups.ts'
import { type Spread, spreadOf } from './spread.ts'
import type { PersonDays } from './upToDate.ts'
import { type TimeTo, timeTo, type Wait } from './waits.ts'

/** A share with Wilson's 95 % interval; both null where there is nothing to share. */
export interface Share {
  readonly count: number
  readonly of: number
  readonly proportion: number | null
  readonly wilson95: readonly [low: number, high: number] | null
}

/** What of rows and files the audit is told: they are no part of anybody's history. */
export interface RowsAsked {
  /** Of rows that came into the held queue in the period: how long each waited, or waits. */
  readonly held: readonly Wait[]
  /** Days from collection to filing of results collected in the period, and how many of each. */
  readonly intake: ReadonlyMap<number, number>
}

/** Every figure of the follow-up audit. docs/follow-up.md says of each what it counts. */
export interface Figures extends Period {
  readonly patients: number
  /** Patients who left on a day nobody recorded: nothing of theirs is judged. */
  readonly leftUnknown: number
  readonly onTime: OnTime
  readonly by: Readonly<Record<Dimension, readonly GroupRow[]>>
  readonly chart: MonthChart
  /** Where another version of the plan began within the period. */
  readonly planChanges: readonly PlanChange[]
  readonly pending: number
  readonly excluded: Readonly<Record<Exclusion, number>>
  /** Days from the due day of tests that were done late. */
  readonly lateness: Spread | null
  /** The same days in even bins, of which none gives a single patient away. */
  readonly lateBins: readonly Bin[]
  readonly backlog: { readonly tests: number; readonly patients: number; readonly ages: Spread | null }
  readonly daysToReview: TimeTo
  readonly daysToRepeat: TimeTo
  readonly answered: Share
  readonly overturned: Share & { readonly how: Readonly<Record<Overturned, number>> }
  /** Null where nobody was followed. */
  readonly coverage: Coverage | null
  readonly held: { readonly rows: number; readonly waiting: number; readonly days: TimeTo }
  readonly intakeDelay: Spread | null
}

function shareOf(count: number, of: number): Share {
  return { count, of, proportion: of === 0 ? null : count / of, wilson95: of === 0 ? null : wilsonInterval(count, of) }
}

function spreadOfCounts(counts: ReadonlyMap<number, number>): Spread | null {
  const size = [...counts.values()].reduce((sum, count) => sum + count, 0)
  const days = new Float64Array(size)
  let at = 0
  for (const [value, count] of counts) {
    days.fill(value, at, at + count)
    at += count
  }
  return spreadOf(days)
}

// In one order, whoever was counted first: sums of fractions depend on it in their last digit, and the figures have a digest.
function inOrder(days: readonly PersonDays[]): readonly PersonDays[] {
  return days.toSorted((a, b) => a.total - b.total || a.covered - b.covered)
}

/** The figures of what was counted. `planChanges`: those of the period; none where one version is tried as if it had always been in force. */
export function figuresOf(period: Period, counts: CohortCounts, rows: RowsAsked, planChanges: readonly PlanChange[] = []): Figures {
  const { found, answered, overturned, toReview, toRepeat } = counts.flagged
  const waiting = rows.held.filter(({ over }) => !over).length
  return {
    ...period,
    patients: counts.patients,
    leftUnknown: counts.leftUnknown,
    onTime: onTimeOf(counts.total),
    by: Object.fromEntries(DIMENSIONS.map((dimension) => [dimension, groupRows(counts.by[dimension])])) as Figures['by'],
    chart: monthChart(period.from, period.to, counts.by.month),
    planChanges,
    pending: counts.pending,
    excluded: { ...counts.excluded },
    lateness: spreadOf(counts.total.daysLate),
    lateBins: lateBins(counts.total.daysLate),
    backlog: { tests: counts.overdueAges.length, patients: counts.overduePatients, ages: spreadOf(counts.overdueAges) },
    daysToReview: timeTo(toReview),
    daysToRepeat: timeTo(toRepeat),
    answered: shareOf(answered, found),
    overturned: { ...shareOf(overturned['other-cause'] + overturned.excluded + overturned.corrected, found), how: { ...overturned } },
    coverage: personTimeCoverage(inOrder(counts.personDays)),
    held: { rows: rows.held.length, waiting, days: timeTo(rows.held) },
    intakeDelay: spreadOfCounts(rows.intake),
  }
}
