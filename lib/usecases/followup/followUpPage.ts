import { DIMENSIONS, type Dimension, type GroupRow, lastHalfYear } from '../../followup/index.ts'
import { DEFAULT_PLAN } from '../../plan/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { rowsToLeave } from './exportFollowUp.ts'
import { type KeptAudit, keptAudit } from './keptAudits.ts'
import { recordReading } from './readFollowUp.ts'
import { type FollowUpWish, readFollowUpWish } from './readWish.ts'
import { type VersionInForce, versionsIn } from './versionsIn.ts'

/** An audit as its page shows it. */
export interface ShownAudit extends KeptAudit {
  /** No data have changed since it was worked out. */
  readonly current: boolean
  /** The versions of the plan that were in force in the period. */
  readonly versions: readonly VersionInForce[]
  /** The tables as they may leave the program, on paper say. */
  readonly toLeave: Readonly<Record<Dimension, readonly GroupRow[]>>
}

/** What the form of the audit offers, and the audit that was asked for. */
export interface FollowUpPage {
  readonly today: Day
  /** The last whole half of a year. */
  readonly usual: { readonly from: Day; readonly to: Day }
  /** Numbers of the published versions of the plan, and of the one Lowmark comes with: what the same period can also be worked out under. */
  readonly versions: readonly string[]
  /** What is wrong with what was asked for; null where nothing is. */
  readonly wrong: string | null
  /** Null where nothing was asked for, and where that is not worked out yet. */
  readonly shown: ShownAudit | null
}

function shownAudit(call: Call, kept: KeptAudit): ShownAudit {
  const { reader } = call.store
  const { figures } = kept
  return {
    ...kept,
    current: reader.dataRevision() === kept.revision,
    versions: versionsIn(reader.publishedPlans(), figures),
    toLeave: Object.fromEntries(DIMENSIONS.map((by) => [by, rowsToLeave(figures, by, call.actor.role)])) as ShownAudit['toLeave'],
  }
}

/** The page of the audit: the one that was asked for, if it is worked out; else what is needed to ask. Logs each showing of figures. */
export async function readFollowUpPage(call: Call, asked: FollowUpWish | null): Promise<Outcome<FollowUpPage>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const { today } = call
  const versions = [...new Set([DEFAULT_PLAN.version, ...call.store.reader.publishedPlans().map(({ version }) => version)])]
  const page = { today, usual: lastHalfYear(today), versions, wrong: null, shown: null }
  if (asked === null) return { ok: true, value: page }
  const read = readFollowUpWish(call, asked)
  if (!read.ok) return { ok: true, value: { ...page, wrong: read.reason } }
  const kept = keptAudit(call.store, read.value)
  if (kept === null) return { ok: true, value: page }
  await recordReading(call, kept, asked.whatIf)
  return { ok: true, value: { ...page, shown: shownAudit(call, kept) } }
}
