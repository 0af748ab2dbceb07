import { z } from 'zod'
import { DIMENSIONS, WAITING } from '../../lib/followup/index.ts'
import type { AuditChartName, ExportWish, FollowUpWish, OccasionsWish, WaitingWish } from '../../lib/usecases/index.ts'

export type Given = Readonly<Record<string, string | readonly string[] | undefined>>

const day = z.string().trim().max(20).catch('')
const orNull = (text: string): string | null => (text === '' ? null : text)

const PERIOD = z.object({
  from: day,
  to: day,
  until: day.transform(orNull),
  plan: z.coerce.number().int().min(1).max(999_999_999).nullable().catch(null),
})
const TESTS = z.object({
  by: z.enum(DIMENSIONS).catch('group'),
  key: z.string().trim().max(200).catch(''),
  verdict: z.enum(['on-time', 'late', 'missed']).nullable().catch(null),
})

/** The audit an address asks for; null where it names no period. What else it cannot mean is left out. */
export function readAsked(given: Given): FollowUpWish | null {
  const { from, to, until, plan } = PERIOD.parse(given)
  return from === '' && to === '' ? null : { from, to, cutOff: until, whatIf: plan }
}

/** The tests behind a row that an address asks for. */
export function readTestsAsked(given: Given): OccasionsWish {
  const { from, to, until } = PERIOD.parse(given)
  return { from, to, cutOff: until, ...TESTS.parse(given) }
}

const WAITS = z.object({ what: z.enum(WAITING).catch('overdue') })

/** What waits behind a figure, as an address asks for it. */
export function readWaitingAsked(given: Given): WaitingWish {
  const { from, to, until } = PERIOD.parse(given)
  return { from, to, cutOff: until, ...WAITS.parse(given) }
}

const CHARTS = ['on-time', 'run', 'review', 'second', 'lateness'] as const satisfies readonly AuditChartName[]
const FILE = z.object({ by: z.enum(DIMENSIONS).nullable().catch(null), chart: z.enum(CHARTS).nullable().catch(null) })

/** The file an address of a request asks for. */
export function fileAsked(request: Request): ExportWish {
  const given = Object.fromEntries(new URL(request.url).searchParams)
  const { from, to, until, plan } = PERIOD.parse(given)
  return { from, to, cutOff: until, whatIf: plan, ...FILE.parse(given) }
}
