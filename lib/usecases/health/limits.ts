const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const DAY_MS = 24 * HOUR_MS
const GIB = 2 ** 30

/** From where on a check warns or fails. All of them are ours. */
export const LIMITS = {
  /** A nightly backup that ran an hour late is no news; two nights without one are. */
  backupWarnMs: 26 * HOUR_MS,
  backupFailMs: 50 * HOUR_MS,
  /** A long weekend without results is usual. */
  quietWarnMs: 4 * DAY_MS,
  /** A source counts as regular that sent on so many days of its last 60. */
  regularDays: 5,
  logWarnMs: 8 * DAY_MS,
  headWarnMs: 26 * HOUR_MS,
  diskFailBytes: GIB / 2,
  diskWarnBytes: 5 * GIB,
  /** A backup or a new version needs room for another copy of the database, and for what grows meanwhile. */
  diskWarnCopies: 2,
} as const

/** "26 hours", "4 days": whole days from two on. */
export function spanText(ms: number): string {
  const [count, unit] =
    ms >= 2 * DAY_MS && (ms % DAY_MS === 0 || ms > 4 * DAY_MS)
      ? [Math.floor(ms / DAY_MS), 'day']
      : ms >= HOUR_MS
        ? [Math.floor(ms / HOUR_MS), 'hour']
        : [Math.max(0, Math.floor(ms / MINUTE_MS)), 'minute']
  return `${count} ${unit}${count === 1 ? '' : 's'}`
}

/** "5.0 GiB"; below a tenth of one "12 MiB". */
export function sizeText(bytes: number): string {
  if (bytes < GIB / 10) return `${Math.ceil(bytes / 2 ** 20)} MiB`
  return `${(bytes / GIB).toFixed(1)} GiB`
}
