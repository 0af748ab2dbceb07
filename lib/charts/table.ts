import { hasNumber, type Sample } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { breaksOf } from './breaks.ts'
import type { ChartPlan } from './chart.ts'
import { isCorrected, keptLabel, printedLabel } from './label.ts'

/** One column of values; `sampleOn` finds the sample of a day. */
export interface TableSeries {
  readonly name: string
  readonly unit: string
  readonly samples: readonly Sample[]
}

function notes(samples: readonly Sample[], unit: string, changes: readonly string[]): string {
  const printed = samples.flatMap((sample) => printedLabel(sample, unit) ?? [])
  return [...(printed.length > 0 ? [`printed ${printed.join(' and ')}`] : []), ...(samples.some(isCorrected) ? ['corrected'] : []), ...changes].join(
    '; ',
  )
}

/** Every sample in a row of its day, the newest first, values in the unit kept. Columns that would be empty are left out. */
export function tableOf(series: readonly TableSeries[]): ChartPlan['table'] {
  const byDay = new Map<Day, (Sample | undefined)[]>()
  series.forEach(({ samples }, at) => {
    for (const sample of samples) {
      const row = byDay.get(sample.on) ?? series.map(() => undefined)
      row[at] = sample
      byDay.set(sample.on, row)
    }
  })
  const breaks = series.flatMap(({ samples }) => breaksOf(samples.filter(hasNumber)))
  const rows = [...byDay]
    .sort(([a], [b]) => (a < b ? 1 : -1))
    .map(([on, row]) => {
      const samples = row.filter((sample) => sample !== undefined)
      const laboratory = [...new Set(samples.flatMap((sample) => sample.laboratory ?? []))].join(', ')
      return {
        values: [on, ...row.map((sample) => (sample === undefined ? '' : keptLabel(sample)))],
        laboratory,
        note: notes(samples, series[0]?.unit ?? '', [...new Set(breaks.filter((one) => one.on === on).map(({ says }) => says))]),
      }
    })
  const withLaboratory = new Set(rows.map((row) => row.laboratory)).size > 1
  const withNote = rows.some((row) => row.note !== '')
  return {
    columns: ['Day', ...series.map(({ name, unit }) => `${name}, ${unit}`), ...(withLaboratory ? ['Laboratory'] : []), ...(withNote ? ['Note'] : [])],
    rows: rows.map(({ values, laboratory, note }) => [...values, ...(withLaboratory ? [laboratory] : []), ...(withNote ? [note] : [])]),
  }
}
