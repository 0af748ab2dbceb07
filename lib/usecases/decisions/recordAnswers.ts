import type { AnswerKind, FindingDecision } from '../../results/index.ts'
import { answerTo, bringBackAtMost, lastAbout, needsNote, usualBringBack } from '../../review/index.ts'
import { type Finding, ruleTitle } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { type Day, parseDay } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { ListRow } from '../views.ts'
import { currentFinding, type FindingWish } from './currentFinding.ts'
import { decideTogether, type One, refuse } from './decide.ts'
import { givenSays, takenBackSays } from './givenSays.ts'
import { rowNow } from './rowNow.ts'

/** A finding as it was shown: `lastDone` is the number of the last thing done about it then; left out where nothing was shown. */
export interface ShownFinding extends FindingWish {
  readonly lastDone?: number | undefined
}

export interface AnswerWish {
  readonly patientId: string
  /** Answered together, or none of them. */
  readonly findings: readonly ShownFinding[]
  /** Null for an answer without a kind. */
  readonly did: AnswerKind | null
  /** May be empty where the kind says enough. */
  readonly note: string
  /** After today and never later than the next due test; null for the usual day of the kind. */
  readonly bringBackOn: Day | null
}

export interface Answered {
  /** Their numbers, to take them back by. */
  readonly decisionIds: readonly number[]
  /** Null for what was handed to a physician: it stays. */
  readonly bringBackOn: Day | null
  /** The patient's place in the list as it is now. */
  readonly row: ListRow | null
}

function bringBackDay(wanted: Day | null, usual: Day, atMost: Day, today: Day): Day {
  if (wanted === null) return usual
  if (parseDay(wanted) === null) refuse('invalid', `"${wanted}" is not a day written YYYY-MM-DD.`)
  if (wanted <= today) refuse('invalid', `The bring-back day has to be after today, ${today}.`)
  if (wanted > atMost) refuse('invalid', `The bring-back day can be ${atMost} at the latest: never later than the next due test.`)
  return wanted
}

/** What was done about a finding since it was shown, in a sentence; null where nothing was. */
function meanwhile({ key, rule, lastDone }: ShownFinding, { known }: Assessment): string | null {
  const last = lastAbout(key, known.decisions)
  if (lastDone === undefined || last === null || last.id === lastDone) return null
  return `${ruleTitle(rule as Finding['rule'])}: ${last.kind === 'answer-withdrawn' ? takenBackSays(last) : givenSays(last)}.`
}

/** Whoever answers what another person answered meanwhile is told, and may answer anew once they have seen it. */
function refuseIfMeanwhile(findings: readonly ShownFinding[], assessment: Assessment): void {
  const told = findings.map((shown) => meanwhile(shown, assessment)).filter((says) => says !== null)
  if (told.length > 0)
    refuse('invalid', `Meanwhile somebody was here. ${told.join(' ')} Nothing of yours was kept yet: send it again to answer anew.`)
}

function decisionOn(finding: Finding, wish: FindingWish, call: Call, assessment: Assessment, bringBackOn: Day, did: AnswerKind | null): One {
  const { rule, key } = wish
  const { handovers, known } = assessment
  const handover = handovers.get(finding)
  // Only a physician answers what was handed to one; from anybody else it is a note, and the finding stays open.
  const answers = handover !== undefined && call.actor.role === 'physician' ? { handoverId: handover.id } : {}
  const decision: FindingDecision =
    did === 'handed-to-physician'
      ? { kind: 'handover', rule, key }
      : { kind: 'review', rule, key, bringBackOn, ...(did === null ? {} : { did }), ...answers }
  return {
    decision,
    before: (did === 'handed-to-physician' ? handover : answerTo(finding, known.decisions, call.today)) ?? null,
    event: (logged) => ({ action: 'review-recorded', ...(did === null ? {} : { did }), ...logged }),
  }
}

/**
 * Answers one finding or several of a patient with their evidence, in one transaction, all or none. An answer holds until its bring-back day, and a finding
 * does not count for the patient's place meanwhile; what is handed to a physician stays open until one answers it, and a danger stays whatever is noted. A
 * second answer to the same evidence takes the place of the first.
 */
export function recordAnswers(call: Call, wish: AnswerWish): Promise<Outcome<Answered>> {
  const { patientId, findings, did, note } = wish
  const asked = { permission: 'review.write', patientId, typed: note, called: 'The note', optional: did !== null && !needsNote(did) } as const
  return decideTogether(call, asked, (assessment) => {
    if (findings.length === 0) refuse('invalid', 'Choose at least one finding.')
    if (new Set(findings.map(({ key }) => key)).size < findings.length) refuse('invalid', 'A finding was named twice.')
    refuseIfMeanwhile(findings, assessment)
    const atMost = bringBackAtMost(assessment.due, call.today)
    const usual = (did === null ? null : usualBringBack(did, atMost, call.today)) ?? atMost
    const bringBackOn = bringBackDay(did === 'handed-to-physician' ? null : wish.bringBackOn, usual, atMost, call.today)
    const decisions = findings.map((shown) => decisionOn(currentFinding(assessment, shown), shown, call, assessment, bringBackOn, did))
    return {
      decisions,
      value: (decisionIds, tx) => ({
        decisionIds,
        bringBackOn: did === 'handed-to-physician' ? null : bringBackOn,
        row: rowNow(call, tx, assessment.course.patient.id),
      }),
    }
  })
}
