import { type Frame, INK, line, words } from './svg.ts'

/** A place on an axis and what stands there. */
export interface Tick {
  readonly at: number
  readonly label: string
}

export function xAxis({ left, right, top, bottom }: Frame, ticks: readonly Tick[], title: string, grid = false): string {
  const marks = ticks.map(
    ({ at, label }) =>
      `${grid ? line(at, top, at, bottom) : ''}${line(at, bottom, at, bottom + 5, INK)}${words(at, bottom + 20, label, { anchor: 'middle' })}`,
  )
  return `${marks.join('')}${line(left, bottom, right, bottom, INK)}${words((left + right) / 2, bottom + 40, title, { anchor: 'middle' })}`
}

export function yAxis({ left, right, top, bottom }: Frame, ticks: readonly Tick[], title: string): string {
  const marks = ticks.map(
    ({ at, label }) => `${line(left, at, right, at)}${line(left - 5, at, left, at, INK)}${words(left - 9, at + 4.5, label, { anchor: 'end' })}`,
  )
  return `${marks.join('')}${line(left, top, left, bottom, INK)}${words(left - 48, (top + bottom) / 2, title, { anchor: 'middle', turned: true })}`
}

/** A panel's title, where its column of the picture begins; `wider` is what its plot area leaves free on the left. */
export function heading({ left, top }: Frame, text: string, wider = 0): string {
  return words(left - wider - 56, top - 16, text, { size: 15, weight: 'bold' })
}
