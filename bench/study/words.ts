import type { Spread } from './median.ts'
import type { Rate, Share } from './rates.ts'

function number(value: number, places: number): string {
  return Number.isFinite(value) ? value.toFixed(places) : 'later'
}

/** "1.70 (1.09 to 2.56)"; from 100 on without decimals, from 10 on with one. */
export function rateText({ per100, low, high }: Pick<Rate, 'per100' | 'low' | 'high'>): string {
  const places = per100 >= 100 ? 0 : per100 >= 10 ? 1 : 2
  return `${number(per100, places)} (${number(low, places)} to ${number(high, places)})`
}

/** "84.0 % (77.4 to 89.0)"; a share that is not quite all is never shown as 100 %. */
export function shareText({ of, total, share, low, high }: Share): string {
  const percent = of < total ? Math.min(99.9, 100 * share) : 100
  return `${number(percent, 1)} % (${number(100 * low, 1)} to ${number(100 * high, 1)})`
}

/** "95 (80 to 106); 56 to 142": median, its interval, quartiles. "later" stands for not while it was looked for. */
export function spreadText({ median, low, high, quartiles }: Spread, places = 0): string {
  const [first, third] = quartiles
  return `${number(median, places)} (${number(low, places)} to ${number(high, places)}); ${number(first, places)} to ${number(third, places)}`
}

/** A median and its interval alone; "-" for nobody. */
export function intervalText(spread: Spread | null, places = 0): string {
  return spread === null ? '-' : `${number(spread.median, places)} (${number(spread.low, places)} to ${number(spread.high, places)})`
}

export function everyText(every: number | null): string {
  return every === null ? 'all' : `${every} days`
}

/** A table in Markdown, its columns padded to their widest cell. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((cell, at) => Math.max(cell.length, ...rows.map((row) => row[at]?.length ?? 0)))
  const line = (cells: readonly string[]) => `| ${cells.map((cell, at) => cell.padEnd(widths[at] ?? 0)).join(' | ')} |`
  return [line(head), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n')
}
