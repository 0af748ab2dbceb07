import type { Permission } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { judgeChange } from '../courseChanges/changeCourse.ts'
import { judgeTakingBack } from '../courseChanges/takeBackChange.ts'
import type { WishedChange } from '../courseChanges/wish.ts'
import { type Deciding, proposed } from '../decisions/decide.ts'
import { decideExclusion } from '../decisions/excludeResult.ts'
import { decideAttribution } from '../decisions/recordAttribution.ts'
import { decideRestoration } from '../decisions/restoreResult.ts'
import { decideWithdrawal } from '../decisions/withdrawAttribution.ts'
import { previewProposal } from './previewProposal.ts'
import type { Judge } from './proposal.ts'
import type { Preview } from './views.ts'

/** What somebody would do, so far without a reason. */
export type Considered = { readonly patientId: string } & (
  | { readonly would: 'change-course'; readonly change: WishedChange }
  | { readonly would: 'take-back'; readonly changeId: number }
  | { readonly would: 'exclude'; readonly resultId: number }
  | { readonly would: 'restore'; readonly resultId: number }
  | { readonly would: 'attribute'; readonly rule: string; readonly key: string }
  | { readonly would: 'withdraw-cause'; readonly attributionId: number }
)

const NEEDS: Readonly<Record<Considered['would'], Permission>> = {
  'change-course': 'course.write',
  'take-back': 'course.write',
  exclude: 'exclusion.write',
  restore: 'exclusion.write',
  attribute: 'attribution.write',
  'withdraw-cause': 'attribution.write',
}

const judging =
  <T>(deciding: Deciding<T>): Judge<T> =>
  (assessment, reader) =>
    proposed(deciding(assessment, reader))

function judgeOf(considered: Considered, { today }: Call): Judge<unknown> {
  switch (considered.would) {
    case 'change-course':
      return judgeChange(considered.change)
    case 'take-back':
      return judgeTakingBack(considered)
    case 'exclude':
      return judging(decideExclusion(considered))
    case 'restore':
      return judging(decideRestoration(considered))
    case 'attribute':
      return judging(decideAttribution(considered, today))
    case 'withdraw-cause':
      return judging(decideWithdrawal(considered))
  }
}

/** What a change or a decision would do to everything that is said of the patient today, before anything is kept. */
export function previewConsequence(call: Call, considered: Considered): Promise<Outcome<Preview>> {
  return previewProposal(call, { permission: NEEDS[considered.would], patientId: considered.patientId }, judgeOf(considered, call))
}
