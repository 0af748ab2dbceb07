import type { PlanChange } from '../../followup/index.ts'
import type { Tick } from './auditChart.ts'

/** Months beside each other, each as wide as the others; a month's value stands in its middle. Places from 0 to 100. */
export interface MonthAxis {
  readonly ticks: { readonly wide: readonly MonthTick[]; readonly narrow: readonly MonthTick[] }
  readonly changes: readonly ChangeMark[]
}

/** The name of a month below its middle, with the year where it is to be told. */
export interface MonthTick extends Tick {
  readonly year: string | null
}

/** Where another version of the plan began. */
export interface ChangeMark extends Tick {
  /** Labels near each other stand in rows: 0 is the lowest. */
  readonly row: number
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']
/** Months from one name to the next, so that January is always among them. */
const STEPS = [1, 2, 3, 6, 12, 24, 60, 120]
const MOST = { wide: 14, narrow: 5 } as const
/** Labels of changes nearer than this, in parts of the axis, would run into each other. */
const NEAR = 22

const place = (value: number): number => Math.round(value * 100) / 100

/** Where the middle of the month at a position lies. */
export function monthPlace(at: number, months: number): number {
  return place(((at + 0.5) / months) * 100)
}

function monthTicks(months: readonly string[], most: number): readonly MonthTick[] {
  const step = STEPS.find((one) => months.length / one <= most) ?? months.length
  const sinceYearZero = (month: string): number => Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1
  const named = months.flatMap((month, at) => (sinceYearZero(month) % step === 0 ? [{ month, at }] : []))
  return named.map(({ month, at }, index) => ({
    at: monthPlace(at, months.length),
    label: MONTHS[Number(month.slice(5, 7)) - 1] ?? month,
    year: index === 0 || named[index - 1]?.month.slice(0, 4) !== month.slice(0, 4) ? month.slice(0, 4) : null,
  }))
}

const daysOf = (month: string): number => new Date(Date.UTC(Number(month.slice(0, 4)), Number(month.slice(5, 7)), 0)).getUTCDate()

function changeMarks(months: readonly string[], changes: readonly PlanChange[]): readonly ChangeMark[] {
  const marks: ChangeMark[] = []
  for (const { version, from } of changes) {
    const month = months.indexOf(from.slice(0, 7))
    if (month === -1) continue
    const at = place(((month + (Number(from.slice(8)) - 1) / daysOf(from.slice(0, 7))) / months.length) * 100)
    const before = marks.at(-1)
    marks.push({ at, label: `plan ${version}`, row: before !== undefined && at - before.at < NEAR ? before.row + 1 : 0 })
  }
  return marks
}

/** The axis of some months in a row, `2026-03` each, with the changes of the plan within them. */
export function monthAxis(months: readonly string[], changes: readonly PlanChange[]): MonthAxis {
  return {
    ticks: { wide: monthTicks(months, MOST.wide), narrow: monthTicks(months, MOST.narrow) },
    changes: changeMarks(months, changes),
  }
}
