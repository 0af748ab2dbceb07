import { answerTo, bringBackAtMost } from '../../review/index.ts'
import { type Day, parseDay } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { currentFinding, type FindingWish } from './currentFinding.ts'
import { decide, refuse } from './decide.ts'

export interface ReviewWish extends FindingWish {
  readonly patientId: string
  readonly note: string
  /** After today and never later than the next due test; null for the latest day there is. */
  readonly bringBackOn: Day | null
}

function bringBackDay(wanted: Day | null, atMost: Day, today: Day): Day {
  if (wanted === null) return atMost
  if (parseDay(wanted) === null) refuse('invalid', `"${wanted}" is not a day written YYYY-MM-DD.`)
  if (wanted <= today) refuse('invalid', `The bring-back day has to be after today, ${today}.`)
  if (wanted > atMost) refuse('invalid', `The bring-back day can be ${atMost} at the latest: never later than the next due test.`)
  return wanted
}

/**
 * Records a review: it answers one current finding with its evidence until the bring-back day, and the finding does not count for the patient's place
 * meanwhile. A danger finding gets its review on record and stays where it is. A second review of the same evidence takes the place of the first.
 */
export function recordReview(call: Call, wish: ReviewWish): Promise<Outcome<{ readonly bringBackOn: Day }>> {
  const { patientId, note, rule, key } = wish
  return decide(call, { permission: 'review.write', patientId, typed: note, called: 'The note' }, (assessment) => {
    const finding = currentFinding(assessment, wish)
    const bringBackOn = bringBackDay(wish.bringBackOn, bringBackAtMost(assessment.due, call.today), call.today)
    return {
      decision: { kind: 'review', rule, key, bringBackOn },
      before: answerTo(finding, assessment.known.decisions, call.today),
      event: (logged) => ({ action: 'review-recorded', ...logged }),
      value: { bringBackOn },
    }
  })
}
