import { addDays, type Day, day, parseDay } from '../../time/index.ts'
import { canonicalSha256, LOG_QUESTIONS } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { typedText } from '../decisions/typedText.ts'
import { refusedUnlessMay } from '../refuse.ts'

export interface ReviewLogWish {
  /** Days of UTC, both included, and over: at the latest yesterday. */
  readonly from: string
  readonly to: string
  /** Which questions were asked of the log; at least one. */
  readonly lookedAt: readonly string[]
  /** May be left empty. */
  readonly note: string
}

function periodOf({ from, to }: ReviewLogWish, now: string): { readonly from: Day; readonly to: Day } | string {
  const [first, last] = [parseDay(from), parseDay(to)]
  if (first === null || last === null) return 'A day is written YYYY-MM-DD.'
  if (first > last) return 'The first day comes after the last.'
  return last < day(now.slice(0, 10)) ? { from: first, to: last } : 'The last day has to be over: at the latest yesterday, in UTC.'
}

/**
 * Records that somebody looked through the log of a period, at what, with a note or without. Counts the entries, and those of whoever reviews them:
 * reviewing one's own is allowed, for there may be one person only, and stays in sight until somebody else reviews the same days.
 */
export async function reviewLog(call: Call, wish: ReviewLogWish): Promise<Outcome<{ readonly sentence: string }>> {
  const refused = await refusedUnlessMay(call, 'log.review', 'log')
  if (refused !== null) return refused
  const period = periodOf(wish, call.now)
  if (typeof period === 'string') return { ok: false, kind: 'invalid', reason: period }
  const lookedAt = LOG_QUESTIONS.filter((question) => wish.lookedAt.includes(question))
  if (lookedAt.length === 0) return { ok: false, kind: 'invalid', reason: 'Say what was looked at: at least one question.' }
  const typed = wish.note.trim() === '' ? { text: null } : typedText(wish.note, 'The note')
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  const { from, to } = period
  const asked = {
    shown: null,
    actions: null,
    only: null,
    before: null,
    from: `${from}T00:00:00.000Z`,
    to: `${addDays(to, 1)}T00:00:00.000Z`,
  } as const
  return call.store.record(call, (tx) => {
    const entries = tx.askTrail({ ...asked, actor: null }, 1).total
    const ownEntries = tx.askTrail({ ...asked, actor: call.actor.name }, 1).total
    const review = { from, to, by: call.actor.name, at: call.now, lookedAt, note: typed.text, entries, ownEntries }
    const reviewId = tx.insertLogReview(review)
    const after = canonicalSha256({ id: reviewId, ...review })
    const own = ownEntries === 0 ? '' : ` ${ownEntries} of them ${ownEntries === 1 ? 'is' : 'are'} your own; somebody else should look at those.`
    return {
      value: {
        ok: true,
        value: { sentence: `Recorded as reviewed from ${from} to ${to}: ${entries} ${entries === 1 ? 'entry' : 'entries'}.${own}` },
      },
      events: [{ action: 'log-reviewed', reviewId, from, to, ownEntries, after }],
    }
  })
}
