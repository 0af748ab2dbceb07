import { DEFAULT_PLAN, type FollowUpPlan, type PlanValues, planDifferences, valuesOf } from '../../plan/index.ts'
import type { StoredPlanVersion } from '../../store/index.ts'
import { addDays, type Day } from '../../time/index.ts'
import { samePerson } from './decideProposal.ts'
import { whyNotPublished } from './publishPlan.ts'
import type { PlanVersionView, ProposalView } from './views.ts'

function timeOf(from: Day | null, until: Day | null, today: Day): PlanVersionView['time'] {
  if (from !== null && until !== null && until < from) return 'never in force'
  if (from !== null && from > today) return 'to come'
  return until !== null && until < today ? 'past' : 'in force'
}

/** The published versions in their times, latest first, the one Lowmark comes with last. */
export function versionViews(published: readonly StoredPlanVersion[], today: Day): PlanVersionView[] {
  const begun = [null, ...published]
  return begun
    .map((stored, index): PlanVersionView => {
      const next = begun[index + 1]
      const until = next === undefined || next === null ? null : addDays(next.from, -1)
      const from = stored?.from ?? null
      const time = timeOf(from, until, today)
      if (stored === null) {
        const nobody = { note: null, proposedBy: null, publishedBy: null, publishedAt: null }
        return { version: DEFAULT_PLAN.version, from, until, time, ...nobody, differences: [] }
      }
      const before = begun[index - 1]?.values ?? valuesOf(DEFAULT_PLAN)
      const { note, proposedBy, decidedBy: publishedBy, decidedAt: publishedAt } = stored
      const differences = planDifferences(before, stored.values)
      return { version: String(stored.version), from, until, time, note, proposedBy, publishedBy, publishedAt, differences }
    })
    .toReversed()
}

/** Proposals that wait, oldest first, then those refused or withdrawn, latest first. `last` is the published plan that begins last. */
export function proposalViews(all: readonly StoredPlanVersion[], last: FollowUpPlan, actor: string): ProposalView[] {
  const known: ReadonlyMap<number, PlanValues> = new Map([
    [Number(DEFAULT_PLAN.version), valuesOf(DEFAULT_PLAN)],
    ...all.map(({ version, values }) => [version, values] as const),
  ])
  const views = all.flatMap(({ values, payload: _, ...stored }): ProposalView[] => {
    if (stored.state === 'published') return []
    const before = stored.state === 'proposed' ? valuesOf(last) : (known.get(stored.basedOn) ?? valuesOf(last))
    const notToPublish = stored.state === 'proposed' ? whyNotPublished(stored, last, actor) : `It was ${stored.state}.`
    const differences = planDifferences(before, values)
    return [{ ...stored, state: stored.state, differences, own: samePerson(stored.proposedBy, actor), notToPublish }]
  })
  return [...views.filter(({ state }) => state === 'proposed'), ...views.filter(({ state }) => state !== 'proposed').toReversed()]
}
