import { scaleLinear } from '@visx/scale'
import type { Figures } from '../../followup/index.ts'
import type { Bin } from '../../statistics/index.ts'
import type { AuditChart, ChartFile, Tick } from './auditChart.ts'
import { daysText, fileShare, percentText } from './auditWords.ts'
import { latenessNotes, latenessSays } from './latenessSays.ts'

export type LatenessFigures = Pick<Figures, 'lateness' | 'lateBins' | 'onTime'>

export interface LatenessPicture {
  /** Each as wide as the others, the open one too. Places from 0 to 100. */
  readonly bars: readonly { readonly from: number; readonly to: number; readonly count: number; readonly open: boolean; readonly label: string }[]
  readonly days: readonly Tick[]
  /** Counts from 0 up to `most`. */
  readonly most: number
  readonly counts: readonly Tick[]
  /** The median and the 90th percentile. */
  readonly marks: readonly (Tick & { readonly kind: 'median' | 'p90' })[]
}

const NAMED = 6
const COUNT_TICKS = 4
/** The words of the open bin need so much of the axis for themselves. */
const OPEN_ROOM = 28

const place = (value: number): number => Math.round(value * 100) / 100

/** "14 to 20 days", "84 days or more". Whole days: the day below the next bin belongs to this one. */
export function binText({ from, below }: Bin): string {
  return below === null ? `${from} days or more` : `${from} to ${below - 1} days`
}

function dayTicks(bins: readonly Bin[]): readonly Tick[] {
  const open = bins.at(-1)?.below === null
  const every = Math.ceil((bins.length + 1) / NAMED)
  const ends = [...bins.map(({ from }) => from ?? 0), ...(open ? [] : [bins.at(-1)?.below ?? 0])]
  const named = ends.map((day, at) => ({ at: place((at / bins.length) * 100), label: String(day) })).filter((_, at) => at % every === 0)
  if (!open) return named
  return [...named.filter(({ at }) => at < 100 - OPEN_ROOM), { at: 100, label: `${ends.at(-1)} or more` }]
}

function placeOf(day: number, bins: readonly Bin[]): number {
  const closed = bins.filter(({ below }) => below !== null)
  const end = closed.at(-1)?.below ?? 0
  // Somewhere in the open bin: its middle, and the label has the number.
  return place((day > end ? closed.length + 0.5 : (day / end) * closed.length) * (100 / bins.length))
}

function pictureOf({ lateness, lateBins: bins }: LatenessFigures): LatenessPicture | null {
  if (lateness === null || bins.length === 0) return null
  const axis = scaleLinear<number>({ domain: [0, Math.max(...bins.map(({ count }) => count))] }).nice(COUNT_TICKS)
  const bars = bins.map((bin, at) => ({
    from: place((at / bins.length) * 100),
    to: place(((at + 1) / bins.length) * 100),
    count: bin.count,
    open: bin.below === null,
    label: binText(bin),
  }))
  return {
    bars,
    days: dayTicks(bins),
    most: axis.domain()[1] ?? 1,
    counts: axis
      .ticks(COUNT_TICKS)
      .filter(Number.isInteger)
      .map((at) => ({ at, label: String(at) })),
    marks: [
      { kind: 'median', at: placeOf(lateness.median, bins), label: `half within ${daysText(lateness.median)}` },
      { kind: 'p90', at: placeOf(lateness.p90, bins), label: `nine of ten within ${daysText(lateness.p90)}` },
    ],
  }
}

function tableOf(bins: readonly Bin[]): AuditChart<never>['table'] {
  const whole = bins.reduce((sum, { count }) => sum + count, 0)
  if (whole === 0) return null
  return {
    caption: 'Tests that were done late, by days since their due day',
    columns: ['Days late', 'Tests', 'Share of the late'],
    figures: ['Tests', 'Share of the late'],
    rows: bins.map((bin) => [binText(bin), String(bin.count), percentText(bin.count / whole)]),
  }
}

/** How late the late tests were: a histogram in bins as wide as each other, with the median and the 90th percentile. */
export function latenessChart(figures: LatenessFigures): AuditChart<LatenessPicture> {
  return {
    id: 'lateness',
    title: 'How late the late tests were',
    sentence: latenessSays(figures),
    notes: latenessNotes(figures),
    picture: pictureOf(figures),
    table: tableOf(figures.lateBins),
  }
}

/** The same numbers for a file. */
export function latenessFile({ lateBins: bins }: Pick<LatenessFigures, 'lateBins'>): ChartFile<Bin> {
  const whole = bins.reduce((sum, { count }) => sum + count, 0)
  return {
    columns: [
      ['days late from', ({ from }) => from],
      ['days late to', ({ below }) => (below === null ? null : below - 1)],
      ['tests', ({ count }) => count],
      ['share of the late', ({ count }) => fileShare(count / whole)],
    ],
    rows: bins,
  }
}
