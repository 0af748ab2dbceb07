import type { Dimension, WaitingKind } from '../../../lib/followup/index.ts'
import type { AuditChartName, FollowUpWish, OccasionsWish } from '../../../lib/usecases/index.ts'

/** An audit as the fields of its form, which are those of its address. */
export interface AskedFields {
  readonly from: string
  readonly to: string
  readonly until: string
  readonly plan: string
}

export function fieldsOf({ from, to, cutOff, whatIf }: FollowUpWish): AskedFields {
  return { from, to, until: cutOff ?? '', plan: whatIf === null ? '' : String(whatIf) }
}

function withFields(path: string, fields: Readonly<Record<string, string>>): string {
  const said = Object.entries(fields).filter(([, value]) => value !== '')
  return `${path}?${new URLSearchParams(said)}`
}

export const auditAddress = (asked: AskedFields): string => withFields('/follow-up', { ...asked })
export const reportAddress = (asked: AskedFields): string => withFields('/follow-up/report', { ...asked })
export const chartAddress = (asked: AskedFields, chart: AuditChartName): string => withFields('/follow-up/export', { ...asked, chart })
export const exportAddress = (asked: AskedFields, by: Dimension): string => withFields('/follow-up/export', { ...asked, by })

/** The tests behind a row; `verdict` null for all that were due. Never with another plan: under that nothing was ever done. */
export function testsAddress({ from, to, until }: AskedFields, by: Dimension, key: string, verdict: OccasionsWish['verdict']): string {
  return withFields('/follow-up/tests', { from, to, until, by, key, verdict: verdict ?? '' })
}

/** What waits behind a figure; as the tests behind a row never with another plan. */
export function waitingAddress({ from, to, until }: AskedFields, what: WaitingKind): string {
  return withFields('/follow-up/waiting', { from, to, until, what })
}
