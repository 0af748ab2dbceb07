import { may } from '../../access/index.ts'
import { sumOfFinding, sumsOf } from '../../look/index.ts'
import { type AnswerChoice, answerChoices, bringBackAtMost, isDanger, whySentence } from '../../review/index.ts'
import type { RuleId } from '../../rules/index.ts'
import { ageAt, type Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { findingViews } from '../patientView.ts'
import type { EvidenceView, FindingView, PatientView } from '../patientViews.ts'
import { personName } from '../personName.ts'
import { assessed } from './openPatient.ts'
import { atAddress } from './patientAt.ts'

/** A finding as it stands beside the list: what decides, without the file and row of each value. */
export interface BesideFinding
  extends Pick<
    FindingView,
    'rule' | 'key' | 'title' | 'state' | 'certainty' | 'window' | 'since' | 'cautions' | 'says' | 'answered' | 'handedOver' | 'lastDone' | 'takeBack'
  > {
  readonly evidence: readonly Omit<EvidenceView, 'sources'>[]
  /** The id of the sum of the patient page that shows how its number was computed; null where there is none. */
  readonly sum: string | null
  /** Stays on the list whatever is noted. */
  readonly danger: boolean
  /** Was taken back: answered once, it does not come back. */
  readonly once: boolean
}

/** One patient beside the list: who it is, why now, what is open, what is due, and what can be answered. */
export interface BesideView
  extends Pick<PatientView, 'asOf' | 'patientId' | 'name' | 'birthDate' | 'age' | 'phase' | 'care' | 'clinician' | 'window' | 'why' | 'due'> {
  /** Open ones first. */
  readonly findings: readonly BesideFinding[]
  readonly choices: readonly AnswerChoice[]
  readonly bringBackAtMost: Day
  readonly mayAnswer: boolean
}

function besideFinding(view: FindingView, sum: string | null): BesideFinding {
  const { rule, key, title, state, certainty, window, since, cautions, says, answered, handedOver, lastDone, takeBack } = view
  return {
    ...{ rule, key, title, state, certainty, window, since, cautions, says, answered, handedOver, lastDone, takeBack },
    evidence: view.evidence.map(({ sources: _, ...evidence }) => evidence),
    sum,
    danger: isDanger(rule as RuleId),
    once: rule === 'reviewed-then-corrected',
  }
}

/** One patient for the panel beside the list, by what stands for the patient in an address. Logged as opened before anything is shown, like the page. */
export function openBesideAt(call: Call, address: string): Promise<Outcome<BesideView>> {
  return atAddress(call, address, async (patientId) => {
    const outcome = await assessed(call, patientId, null)
    if (!outcome.ok) return outcome
    const { assessment, emergency } = outcome.value
    const { asOf, course, due } = assessment
    const { patient } = course
    const atMost = bringBackAtMost(due, asOf)
    const { role } = call.actor
    const sums = sumsOf(assessment)
    const sumOf = assessment.findings.map((finding) => sumOfFinding(finding, sums))
    return {
      ok: true,
      value: {
        asOf,
        patientId: patient.id,
        name: personName(patient),
        birthDate: patient.birthDate,
        age: ageAt(patient.birthDate, asOf),
        phase: course.phase?.phase ?? 'unrecorded',
        care: course.care,
        clinician: patient.clinician,
        window: assessment.window,
        why: whySentence(assessment),
        findings: findingViews(assessment).map((view, at) => besideFinding(view, sumOf[at] ?? null)),
        due: due.map(({ group, lastDoneOn, dueOn, graceEndsOn, daysLate, because }) => ({
          group,
          lastDoneOn,
          dueOn,
          graceEndsOn,
          daysLate,
          because,
        })),
        choices: answerChoices(atMost, asOf),
        bringBackAtMost: atMost,
        // A closed record opens for reading only.
        mayAnswer: emergency === null && may(role === 'none' ? null : role, 'review.write').allowed,
      },
    }
  })
}
