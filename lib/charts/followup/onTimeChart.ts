import type { AuditChart, ChartFile, MonthFigures } from './auditChart.ts'
import { fileShare, percentsText, percentText } from './auditWords.ts'
import { type MonthAxis, monthAxis, monthPlace } from './monthAxis.ts'
import { type HeldMonth, monthLimits } from './monthLimits.ts'
import { onTimeNotes } from './onTimeNotes.ts'
import { onTimeSays } from './onTimeSays.ts'
import { type ShareAxis, shareAxis } from './shareAxis.ts'

/** A month in the picture: its place from 0 to 100, shares as fractions. */
export interface OnTimePoint {
  readonly month: string
  readonly at: number
  readonly share: number
  readonly low: number
  readonly high: number
  /** Beyond a limit of chance alone. */
  readonly signal: 'above' | 'below' | null
  /** Beyond every limit that is drawn. */
  readonly standsOut: boolean
  readonly label: string
}

/** A limit over one month or several that have the same, from place to place. */
export interface LimitStep {
  readonly from: number
  readonly to: number
  readonly share: number
}

export interface OnTimePicture {
  readonly months: MonthAxis
  readonly shares: ShareAxis
  readonly points: readonly OnTimePoint[]
  readonly centre: number
  /** Limits of chance alone: of each month in which something was due, unless no share could lie beyond. */
  readonly limits: { readonly low: readonly LimitStep[]; readonly high: readonly LimitStep[] }
  /** Laney's limits, where the months vary more than chance alone makes them; else none. */
  readonly wide: { readonly low: readonly LimitStep[]; readonly high: readonly LimitStep[] }
}

/** Fewer months are told in words: a point beside nothing is no picture. */
const FEWEST = 2

function steps(months: readonly HeldMonth[], limitOf: (month: HeldMonth) => number | null): readonly LimitStep[] {
  const end = (at: number): number => Math.round((at / months.length) * 10_000) / 100
  return months.flatMap((month, at) => {
    const share = limitOf(month)
    return share === null ? [] : [{ from: end(at), to: end(at + 1), share }]
  })
}

function pictureOf(held: readonly HeldMonth[], centre: number, changes: MonthFigures['planChanges']): OnTimePicture | null {
  const points = held.flatMap(({ month, share, wilson95, signal, standsOut }, at) =>
    share === null || wilson95 === null
      ? []
      : [
          {
            month,
            at: monthPlace(at, held.length),
            share,
            low: wilson95[0],
            high: wilson95[1],
            signal,
            standsOut,
            label: `${month} ${percentText(share)}`,
          },
        ],
  )
  if (points.length < FEWEST || centre === 0 || centre === 1) return null
  const limits = { low: steps(held, ({ low }) => low), high: steps(held, ({ high }) => high) }
  const wide = { low: steps(held, ({ wide }) => wide?.[0] ?? null), high: steps(held, ({ wide }) => wide?.[1] ?? null) }
  const lines = [...limits.low, ...limits.high, ...wide.low, ...wide.high].map(({ share }) => share)
  const names = held.map(({ month }) => month)
  const shares = shareAxis([centre, ...lines, ...points.flatMap(({ low, high }) => [low, high])])
  return { months: monthAxis(names, changes), shares, points, centre, limits, wide }
}

const NONE = 'none'

function limitsText(low: number | null, high: number | null): string {
  if (low !== null && high !== null) return percentsText(low, high)
  if (low !== null) return `from ${percentText(low)}`
  return high === null ? NONE : `up to ${percentText(high)}`
}

function tableOf(months: readonly HeldMonth[], wider: boolean, { planChanges }: MonthFigures): AuditChart<never>['table'] {
  const told = ({ month, signal, standsOut }: HeldMonth): string => {
    const began = planChanges.filter(({ from }) => from.startsWith(month)).map(({ version, from }) => `plan ${version} from ${from}`)
    const beyond = signal === null ? [] : [`${signal} ${!wider ? 'its limit' : standsOut ? 'both limits' : 'the limit of chance alone'}`]
    return [...beyond, ...began].join('; ')
  }
  const figures = ['Due', 'On time', 'Share', '95 % interval', 'Limits', ...(wider ? ['Wider limits'] : [])]
  const rows = months.map((held) => {
    const { month, due, onTime, share, wilson95, low, high, wide } = held
    if (share === null || wilson95 === null) return [month, '0', '0', ...figures.slice(2).map(() => '-'), told(held)]
    const limits = [limitsText(low, high), ...(wider ? [limitsText(wide?.[0] ?? null, wide?.[1] ?? null)] : [])]
    return [month, String(due), String(onTime), percentText(share), percentsText(...wilson95), ...limits, told(held)]
  })
  return { caption: 'Tests done on time, month by month', columns: ['Month', ...figures, 'Note'], figures, rows }
}

/** The p-chart of tests done on time, month by month. Limits step with what was due; Wilson's intervals stand beside the points. */
export function onTimeChart(figures: MonthFigures): AuditChart<OnTimePicture> {
  const limits = monthLimits(figures.chart)
  return {
    id: 'on-time',
    title: 'Done on time, month by month',
    sentence: onTimeSays(limits),
    notes: limits === null ? [] : onTimeNotes(limits, figures),
    picture: limits === null ? null : pictureOf(limits.months, limits.centre, figures.planChanges),
    table: limits === null ? null : tableOf(limits.months, limits.wider, figures),
  }
}

/** The same numbers for a file; shares and limits as fractions. */
export function onTimeFile({ chart }: Pick<MonthFigures, 'chart'>): ChartFile<HeldMonth & { readonly centre: number }> {
  const limits = monthLimits(chart)
  return {
    columns: [
      ['month', ({ month }) => month],
      ['due', ({ due }) => due],
      ['on time', ({ onTime }) => onTime],
      ['share on time', ({ share }) => fileShare(share)],
      ['95 % from', ({ wilson95 }) => fileShare(wilson95?.[0])],
      ['95 % to', ({ wilson95 }) => fileShare(wilson95?.[1])],
      ['centre', ({ centre }) => fileShare(centre)],
      ['lower limit', ({ low }) => fileShare(low)],
      ['upper limit', ({ high }) => fileShare(high)],
      ['wider lower limit', ({ wide }) => fileShare(wide?.[0])],
      ['wider upper limit', ({ wide }) => fileShare(wide?.[1])],
      ['beyond its limit', ({ signal }) => signal],
      ['beyond every limit', ({ standsOut }) => (standsOut ? 'yes' : 'no')],
    ],
    rows: limits === null ? [] : limits.months.map((month) => ({ ...month, centre: limits.centre })),
  }
}
