import type { PlanChange } from '../../followup/index.ts'

/** A fraction as it is read: 0.8204 is "82.0 %", which no line end parts. */
export function percentText(share: number): string {
  return `${(share * 100).toFixed(1)}\u00a0%`
}

/** "80.6 to 83.3 %". */
export function percentsText(low: number, high: number): string {
  return `${(low * 100).toFixed(1)} to ${percentText(high)}`
}

/** "1 month", "24 months". */
export function countText(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}

/** "2025-03", "2025-03 and 2025-04", "2025-03, 2025-04 and 2025-09". */
export function listText(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}

/** Where the plan was changed, in words. */
export function changesText(changes: readonly PlanChange[]): string {
  return `Here the plan was changed: ${listText(changes.map(({ version, from }) => `version ${version} from ${from}`))}.`
}

/** Days as they are read: 42.2 stays, 35.0 is "35". */
export function daysText(days: number): string {
  return String(Number(days.toFixed(1)))
}

/** Of a fraction four places, one more than any interval here is worth; null stays. */
export function fileShare(share: number | null | undefined): string | null {
  return share === null || share === undefined ? null : share.toFixed(4)
}
