import type { Strip } from '../../charts/index.ts'
import { strip } from '../../charts/index.ts'
import type { ReviewKind } from '../../results/index.ts'
import { noteOf, whySentence } from '../../review/index.ts'
import { type Assessment, comesBackTo } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import { type FindingJson, findingJson } from '../json/findingJson.ts'

/** A due test as a standing keeps it: days, never a count of days, so that it stays true from day to day. */
export interface KeptDue {
  readonly group: string
  readonly lastDoneOn: Day | null
  readonly dueOn: Day
  readonly graceEndsOn: Day
}

/** What a standing keeps of an assessment: everything the list shows, and nothing that changes by the day alone. */
export interface StandingAnswer {
  readonly phase: string
  readonly care: string | null
  readonly window: string
  readonly why: string
  /** Open findings first, then the answered ones. */
  readonly findings: readonly FindingJson[]
  /** How many of them, at the end, a review answers. */
  readonly answered: number
  readonly strip: Strip | null
  readonly due: readonly KeptDue[]
  /** Everybody whose review a correction came after, while nobody has reviewed that since. */
  readonly comesBackTo: readonly string[]
  /** Open findings handed to a physician and answered by none yet, the latest handed over first. */
  readonly handedOver: readonly { readonly rule: string; readonly by: string; readonly on: Day }[]
  /** What was noted last of the first open finding, where that is a danger and stays open for it. */
  readonly noted: { readonly did: ReviewKind | null; readonly by: string; readonly on: Day } | null
}

function handedOver({ handovers }: Assessment): StandingAnswer['handedOver'] {
  const latest = [...handovers].toSorted(([, a], [, b]) => b.id - a.id)
  return latest.map(([{ rule }, { by, on }]) => ({ rule, by, on }))
}

function noted({ open: [first], known }: Assessment): StandingAnswer['noted'] {
  const note = first === undefined ? null : noteOf(first, known.decisions)
  return note === null ? null : { did: note.did ?? null, by: note.by, on: note.on }
}

/** The answer to keep, canonical: the same assessment gives the same text. */
export function standingAnswer(assessment: Assessment): StandingAnswer {
  const { course } = assessment
  return {
    phase: course.phase?.phase ?? 'unrecorded',
    care: course.care,
    window: assessment.window,
    why: whySentence(assessment),
    findings: assessment.findings.map(findingJson),
    answered: assessment.answers.size,
    strip: strip(assessment),
    due: assessment.due.map(({ group, lastDoneOn, dueOn, graceEndsOn }) => ({ group, lastDoneOn, dueOn, graceEndsOn })),
    comesBackTo: comesBackTo(assessment),
    handedOver: handedOver(assessment),
    noted: noted(assessment),
  }
}
