import type { Figures } from '../figures.ts'
import { type Row, rowsPanel } from './rows.ts'
import { lookOf } from './series.ts'
import type { Frame } from './svg.ts'

const SHORT = ['lowest confirmed', 'plain lowest', 'larger than noise', 'three samples']

/** Days from the true crossing to `confirmed`, in each reading. */
export function toConfirmed({ readings }: Figures, frame: Frame, wider: number): string {
  const names = [...new Set(readings.map(({ name }) => name))]
  const rows = readings.map(({ rule, name, delays }): Row => {
    const nth = names.indexOf(name)
    return { label: nth === 0 ? `${rule}: ${SHORT[nth]}` : (SHORT[nth] ?? name), spread: delays.toConfirmed, look: lookOf(nth), opens: nth === 0 }
  })
  return rowsPanel(frame, wider, 'D  From the true crossing to confirmed', 300, rows)
}

/** How far ahead of `confirmed` the early rules are where they come first. */
export function ahead({ leads }: Figures, frame: Frame, wider: number): string {
  const rules = [...new Set(leads.map(({ early }) => early))]
  const rows = leads
    .filter(({ every }) => every === null)
    .map(
      ({ early, late, leads: found }, at, all): Row => ({
        label: `${early} over ${late} (first in ${Math.round(100 * found.first.share)} %)`,
        spread: found.daysWhereFirst,
        look: lookOf(rules.indexOf(early)),
        opens: all[at - 1]?.early !== early,
      }),
    )
  return rowsPanel(frame, wider, 'F  How far ahead of confirmed, where it comes first', 500, rows)
}
