import { WAITING, type WaitingKind } from '../../followup/index.ts'
import { type RuleId, ruleTitle } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { auditInParts } from './auditInParts.ts'
import type { FoundWaiting } from './auditPart.ts'
import { askBehind, type BehindAsked, type BehindView, tellBehind } from './behind.ts'
import type { FollowUpWish } from './readWish.ts'

/** What waits behind a figure of an audit. */
export interface WaitingWish extends Omit<FollowUpWish, 'whatIf'> {
  readonly what: WaitingKind
}

/** One thing that waits. */
interface WaitingTold {
  /** The test group, or the title of the finding. */
  readonly what: string
  readonly since: Day
  readonly until: Day
  readonly days: number
}

export type WaitingView = BehindView<WaitingTold>

/** Whether what waits can be told to whoever asks. Tells of nobody, so nothing is logged. */
export function askWaiting(call: Call, { what, ...wish }: WaitingWish): Promise<Outcome<BehindAsked>> {
  return askBehind(call, wish, WAITING.includes(what) ? null : `The audit does not tell what is "${what}".`)
}

/**
 * What waits behind a figure, longest first: the overdue tests at the end of the period, its findings that nobody answered, or those without a second sample.
 * With patient numbers for whoever may open patients, else under pseudonyms. Logs whose it is.
 */
export async function readWaiting(call: Call, wish: WaitingWish, onProgress?: (progress: Progress) => void): Promise<Outcome<WaitingView>> {
  const asked = await askWaiting(call, wish)
  if (!asked.ok) return asked
  const { period } = asked.value
  return tellBehind(call, asked.value, async () => {
    const { revision, waiting } = await auditInParts(call, { period, whatIf: null, find: { waiting: wish.what } }, onProgress)
    return {
      ok: true,
      value: {
        ...{ found: waiting, revision, by: wish.what },
        placeOf: (one: FoundWaiting) => one,
        rowOf: ({ what, since, until, days }: FoundWaiting) => ({
          ...{ what: wish.what === 'overdue' ? what : ruleTitle(what as RuleId), since, until, days },
        }),
      },
    }
  })
}
