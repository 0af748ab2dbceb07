import { type RunChart, runChart } from '../../statistics/index.ts'
import type { AuditChart, ChartFile, MonthFigures } from './auditChart.ts'
import { countText, fileShare, percentText } from './auditWords.ts'
import { type MonthAxis, monthAxis, monthPlace } from './monthAxis.ts'
import { runNotes, runSays } from './runSays.ts'
import { type ShareAxis, shareAxis } from './shareAxis.ts'

/** Months in a row on one side of the median. */
export interface DrawnRun {
  readonly from: number
  readonly to: number
  readonly side: 'above' | 'below'
  readonly label: string
  /** Longer than chance usually makes it. */
  readonly unusual: boolean
}

export interface RunPicture {
  readonly months: MonthAxis
  readonly shares: ShareAxis
  /** Places from 0 to 100; shares as fractions. */
  readonly points: readonly { readonly month: string; readonly at: number; readonly share: number; readonly inRun: boolean }[]
  readonly median: number
  /** Null where there are too few months to tell a long run from a short one. */
  readonly run: DrawnRun | null
}

/** A line needs two ends. */
const FEWEST = 2

type Point = MonthFigures['chart']['points'][number]

/** A month with its side of the median, and whether it belongs to the longest run, where there are months enough to speak of one. */
interface Sided extends Pick<Point, 'month' | 'due' | 'onTime'> {
  readonly share: number | null
  readonly side: 'above' | 'below' | 'on the median' | null
  readonly inRun: boolean
}

function sided(points: readonly Point[], { median, longestRun, limits }: RunChart): readonly Sided[] {
  return points.map(({ month, due, onTime, proportion: share }, at) => {
    const side = share === null ? null : share > median ? 'above' : share < median ? 'below' : 'on the median'
    const within = limits !== null && longestRun !== null && at >= longestRun.from && at <= longestRun.to
    return { month, due, onTime, share, side, inRun: within && (side === 'above' || side === 'below') }
  })
}

function runOf(months: readonly Sided[], { longestRun, runTooLong, limits }: RunChart): DrawnRun | null {
  const side = longestRun === null ? null : months[longestRun.from]?.side
  if (longestRun === null || limits === null || (side !== 'above' && side !== 'below')) return null
  const [from, to] = [monthPlace(longestRun.from, months.length), monthPlace(longestRun.to, months.length)]
  const words = countText(longestRun.length, 'month')
  return { from, to, side, label: runTooLong ? `${words} ${side}: a shift` : `longest run: ${words}`, unusual: runTooLong }
}

function pictureOf(months: readonly Sided[], run: RunChart, changes: MonthFigures['planChanges']): RunPicture | null {
  const points = months.flatMap(({ month, share, inRun }, at) => (share === null ? [] : [{ month, at: monthPlace(at, months.length), share, inRun }]))
  if (points.length < FEWEST || run.useful === 0) return null
  const names = months.map(({ month }) => month)
  const shares = shareAxis([run.median, ...points.map(({ share }) => share)])
  return { months: monthAxis(names, changes), shares, points, median: run.median, run: runOf(months, run) }
}

function tableOf(months: readonly Sided[]): AuditChart<never>['table'] {
  return {
    caption: 'Tests done on time, by their side of the median',
    columns: ['Month', 'Due', 'On time', 'Share', 'Side', 'In the longest run'],
    figures: ['Due', 'On time', 'Share'],
    rows: months.map(({ month, due, onTime, share, side, inRun }) => [
      month,
      String(due),
      String(onTime),
      share === null ? '-' : percentText(share),
      side ?? '-',
      inRun ? 'yes' : '',
    ]),
  }
}

function monthsWithRun({ chart }: Pick<MonthFigures, 'chart'>): { readonly months: readonly Sided[]; readonly run: RunChart } | null {
  const run = runChart(chart.points.map(({ proportion }) => proportion))
  return run === null ? null : { months: sided(chart.points, run), run }
}

/** The run chart of tests done on time: whether the months shift, by runs and crossings of their median (Anhoej and Olesen, PLoS ONE 2014;9:e113825). */
export function auditRun(figures: MonthFigures): AuditChart<RunPicture> {
  const told = monthsWithRun(figures)
  return {
    id: 'run',
    title: 'Has it shifted?',
    sentence: runSays(told?.run ?? null, told?.months ?? []),
    notes: told === null ? [] : runNotes(told.run, figures.planChanges),
    picture: told === null ? null : pictureOf(told.months, told.run, figures.planChanges),
    table: told === null ? null : tableOf(told.months),
  }
}

/** The same numbers for a file; shares as fractions. */
export function runFile(figures: Pick<MonthFigures, 'chart'>): ChartFile<Sided & { readonly median: number }> {
  const told = monthsWithRun(figures)
  return {
    columns: [
      ['month', ({ month }) => month],
      ['due', ({ due }) => due],
      ['on time', ({ onTime }) => onTime],
      ['share on time', ({ share }) => fileShare(share)],
      ['median', ({ median }) => fileShare(median)],
      ['side of the median', ({ side }) => side],
      ['in the longest run', ({ inRun }) => (inRun ? 'yes' : 'no')],
    ],
    rows: told === null ? [] : told.months.map((month) => ({ ...month, median: told.run.median })),
  }
}
