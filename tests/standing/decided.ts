import fc from 'fast-check'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import type { Decision } from '../../lib/results/index.ts'
import { assess, isAttributable } from '../../lib/standing/index.ts'
import { addDays, day, daysBetween } from '../../lib/time/index.ts'
import { attribution, exclusion, restoration, review, withdrawal } from '../builders/decision.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { asked } from './inventedHistory.ts'

const someTimes = fc.array(
  fc.record({ before: fc.integer({ min: -20, max: 60 }), nth: fc.nat(9), days: fc.integer({ min: 1, max: 40 }), back: fc.boolean() }),
  { minLength: 1, maxLength: 4 },
)

/** Decisions people could have made about this history: on findings current on the day, on results there on the day, some of them taken back. */
function decisionsOf(words: HistoryWords, today: string, times: readonly { before: number; nth: number; days: number; back: boolean }[]): Decision[] {
  const decisions: Decision[] = []
  for (const { before, nth, days, back } of times.toSorted((a, b) => b.before - a.before)) {
    const on = addDays(day(today), -before)
    const next = decisions.length + 1
    const { findings, known } = assess({ ...history(words), decisions }, DEFAULT_PLAN, on)
    const finding = findings[nth % Math.max(1, findings.length)]
    const result = known.results[nth % Math.max(1, known.results.length)]
    if (nth === 9 && result !== undefined) {
      decisions.push(exclusion(next, on, result.id), ...(back ? [restoration(next + 1, addDays(on, days), result.id)] : []))
    } else if (finding !== undefined && isAttributable(finding)) {
      decisions.push(attribution(next, on, finding), ...(back ? [withdrawal(next + 1, addDays(on, days), next)] : []))
    } else if (finding !== undefined) decisions.push(review(next, on, finding, addDays(on, days)))
  }
  return decisions
}

/** A history with decisions people made about it, and a day to ask about. */
export const decided: fc.Arbitrary<{ readonly words: HistoryWords; readonly today: string }> = fc
  .tuple(asked, someTimes)
  .map(([{ words, today }, times]) => ({ words: { ...words, decisions: decisionsOf(words, today, times) }, today }))
  .filter(({ words, today }) => (words.decisions ?? []).some(({ on }) => daysBetween(on, day(today)) >= 0))
