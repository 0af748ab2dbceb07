import type { Figures, TimeTo } from '../../followup/index.ts'
import { atRiskTable, type SurvivalAt, type SurvivalStep } from '../../statistics/index.ts'
import type { AuditChart, ChartFile } from './auditChart.ts'
import { fileShare, percentsText, percentText } from './auditWords.ts'
import { waitAxis } from './waitAxis.ts'
import { WAIT_WORDS, type WaitOf, waitNotes, waitSays } from './waitSays.ts'

export interface WaitPicture {
  /** The last day of the axis. */
  readonly end: number
  /** Level stretches of the curve, in days; shares still waiting as fractions. */
  readonly levels: readonly { readonly from: number; readonly to: number; readonly share: number }[]
  readonly band: readonly { readonly from: number; readonly to: number; readonly low: number; readonly high: number }[]
  readonly censored: readonly { readonly day: number; readonly share: number }[]
  /** Null where the curve does not come down to one half within the axis. */
  readonly median: { readonly day: number; readonly label: string } | null
  /** Below each named day: how many waited still as it began, how many were done by its end. */
  readonly under: readonly { readonly day: number; readonly waiting: number; readonly done: number }[]
  readonly doneWord: string
}

/** A curve needs more than one that waited. */
const FEWEST = 2

export function timeToOf({ daysToReview, daysToRepeat }: Pick<Figures, 'daysToReview' | 'daysToRepeat'>, of: WaitOf): TimeTo {
  return of === 'review' ? daysToReview : daysToRepeat
}

interface Level {
  readonly from: number
  readonly to: number
  readonly share: number
  readonly interval: SurvivalStep['interval']
}

// From one event to the next; at the end to the last day anybody was watched.
function levelsOf(steps: readonly SurvivalStep[], end: number): readonly Level[] {
  const falls = steps.filter(({ events }) => events > 0)
  const starts = [{ time: 0, survival: 1, interval: null }, ...falls]
  const last = Math.min(steps.at(-1)?.time ?? 0, end)
  return starts.flatMap(({ time, survival: share, interval }, at) => {
    const [from, to] = [Math.min(time, end), Math.min(starts[at + 1]?.time ?? last, end)]
    return time > end ? [] : [{ from, to, share, interval }]
  })
}

function pictureOf(time: TimeTo, of: WaitOf): WaitPicture | null {
  const { curve, median } = time
  if (curve.size < FEWEST || curve.events === 0) return null
  const { end, days } = waitAxis(curve)
  const levels = levelsOf(curve.steps, end)
  return {
    end,
    levels: levels.map(({ from, to, share }) => ({ from, to, share })),
    band: levels.flatMap(({ from, to, interval }) => (interval === null ? [] : [{ from, to, low: interval[0], high: interval[1] }])),
    censored: curve.steps.flatMap(({ time: day, censored, survival: share }) => (censored > 0 && day <= end ? [{ day, share }] : [])),
    median: median === null || median > end ? null : { day: median, label: `half by day ${Number(median.toFixed(1))}` },
    under: atRiskTable(curve, days).map(({ time: day, atRisk: waiting, events: done }) => ({ day, waiting, done })),
    doneWord: WAIT_WORDS[of].done,
  }
}

function tableOf({ curve }: TimeTo, of: WaitOf): AuditChart<never>['table'] {
  if (curve.size === 0) return null
  const figures = ['Day', 'Waiting as it began', `${WAIT_WORDS[of].heading} by its end`, 'No longer watched', 'Still waiting', '95 % interval']
  const row = ({ time, atRisk, events, censored, survival, interval }: SurvivalAt) => [
    ...[time, atRisk, events, censored].map(String),
    survival === null ? '-' : percentText(survival),
    interval === null ? '-' : percentsText(...interval),
  ]
  return { caption: WAIT_WORDS[of].caption, columns: figures, figures, rows: atRiskTable(curve, waitAxis(curve).days).map(row) }
}

/** Days to the review of a finding, or to its second sample: Kaplan and Meier's curve of those that still wait, with its log-log band. */
export function waitChart(figures: Pick<Figures, 'daysToReview' | 'daysToRepeat'>, of: WaitOf): AuditChart<WaitPicture> {
  const time = timeToOf(figures, of)
  return {
    id: of,
    title: WAIT_WORDS[of].title,
    sentence: waitSays(time, of),
    notes: waitNotes(time, of, waitAxis(time.curve).end),
    picture: pictureOf(time, of),
    table: tableOf(time, of),
  }
}

/** Every step of the curve for a file; shares as fractions. */
export function waitFile(figures: Pick<Figures, 'daysToReview' | 'daysToRepeat'>, of: WaitOf): ChartFile<SurvivalStep> {
  return {
    columns: [
      ['day', ({ time }) => time],
      ['waiting as it began', ({ atRisk }) => atRisk],
      [`${WAIT_WORDS[of].done} on it`, ({ events }) => events],
      ['no longer watched from it on', ({ censored }) => censored],
      ['share still waiting', ({ survival }) => fileShare(survival)],
      ['standard error', ({ standardError }) => fileShare(standardError)],
      ['95 % from', ({ interval }) => fileShare(interval?.[0])],
      ['95 % to', ({ interval }) => fileShare(interval?.[1])],
    ],
    rows: timeToOf(figures, of).curve.steps,
  }
}
