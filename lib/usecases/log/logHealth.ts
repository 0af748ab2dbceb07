import type { Store } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { KEPT } from '../health/kept.ts'

/** What the last check of the log found. */
export interface LastVerified {
  /** UTC, ISO 8601. */
  readonly at: string
  readonly rows: number
  readonly firstBad: number | null
  /** How many heads kept elsewhere it was held against. */
  readonly heads: number
}

/** When the head of the log was last sent elsewhere, and the failure since, where there is one. */
export interface LastHeadSent {
  /** Null where none was ever sent. */
  readonly sent: null | { readonly at: string; readonly sequence: number; readonly hash: string; readonly to: string }
  readonly failed: null | { readonly at: string; readonly to: string; readonly reason: string }
}

/** Keeps what a check of the log found, with its entry. */
export function keepVerified(call: Call, found: Omit<LastVerified, 'at'>): Promise<void> {
  const kept: LastVerified = { at: call.now, ...found }
  return call.store.record(call, (tx) => ({
    value: tx.setSetting(KEPT.logVerified, JSON.stringify(kept)),
    events: [{ action: 'log-verified', ...found }],
  }))
}

/** Keeps that the head was sent, or why it was not, with its entry. The last one that was sent stays known. */
export function keepHeadSent(call: Call, tried: LastHeadSent, kind: 'file' | 'syslog' | 'syslog+tcp', sequence: number): Promise<void> {
  const outcome = tried.failed === null ? 'success' : 'failure'
  return call.store.record(call, (tx) => {
    const kept: LastHeadSent = { sent: tried.sent ?? logHealth(tx).headSent.sent, failed: tried.failed }
    return { value: tx.setSetting(KEPT.headSent, JSON.stringify(kept)), events: [{ action: 'log-head-sent', outcome, sequence, to: kind }] }
  })
}

/** What is known of the log outside the program: for the page of its health. */
export function logHealth(reader: Pick<Store['reader'], 'setting'>): { readonly verified: LastVerified | null; readonly headSent: LastHeadSent } {
  const verified = reader.setting(KEPT.logVerified)
  const headSent = reader.setting(KEPT.headSent)
  return {
    verified: verified === null ? null : (JSON.parse(verified) as LastVerified),
    headSent: headSent === null ? { sent: null, failed: null } : (JSON.parse(headSent) as LastHeadSent),
  }
}
