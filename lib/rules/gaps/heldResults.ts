import type { HeldNotice } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import { gap } from '../gap.ts'
import type { FollowUpRule } from '../rule.ts'

// As of a past day a row counts from its collection, although it was received later; it then waits since it was collected.
function waitsSince({ receivedOn, collectedOn }: HeldNotice, today: Day): Day {
  return receivedOn <= today ? receivedOn : (collectedOn ?? receivedOn)
}

export const heldResults: FollowUpRule = {
  id: 'held-results',
  asks: 'Do results of this patient wait in the held queue, seen by nobody?',
  source: '(ours)',
  check: ({ held, today }) => {
    const since = held.map((row) => waitsSince(row, today)).sort()[0]
    if (since === undefined) return []
    const rows = held
      .map((row) => row.id)
      .toSorted((a, b) => a - b)
      .join(' ')
    return [gap({ rule: 'held-results', window: 'within-7-days', since, facts: { count: String(held.length), since, rows } })]
  },
}
