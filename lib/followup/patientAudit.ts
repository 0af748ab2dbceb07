import type { FollowUpPlan } from '../plan/index.ts'
import { GROUP_ANALYTES, type TestGroup } from '../plan/index.ts'
import type { History } from '../results/index.ts'
import { addDays, type Day, earlierDay } from '../time/index.ts'
import type { Placed } from './dimension.ts'
import type { Flagged } from './flagged.ts'
import { occasionsOf } from './occasionsOf.ts'
import { type Past, pastOf, planStates, type Repeats } from './planStates.ts'
import { type Overdue, overdueOn, type PersonDays, personDays } from './upToDate.ts'

/** What is asked about, and up to which day data count: what was done after the period counts, until then. */
export interface Period {
  readonly from: Day
  readonly to: Day
  readonly cutOff: Day
}

/** What the audit is told of findings: whoever calls sees the rules, this room does not. */
export interface FindingsAsked extends Repeats {
  /** Findings that results raised, of whatever day. */
  readonly flagged: (past: Past) => readonly Flagged[]
}

/** What the audit says of one patient in a period. */
export interface PatientAudit {
  readonly patientId: string
  /** Those due in the period. */
  readonly occasions: readonly Placed[]
  /** Past their grace at the end of the period. */
  readonly overdue: readonly Overdue[]
  readonly days: PersonDays
  /** Findings that began in the period. */
  readonly flagged: readonly Flagged[]
  /** The last day on which anybody could have done anything: the cut-off, or the day the patient left. */
  readonly watchedUntil: Day
  /** Left, and nobody recorded when: nothing of this patient can be judged. */
  readonly leftUnknown: boolean
}

/** A grace is at most so long (the most a clinic can set), so what is due in the period was asked for by then. */
const LONGEST_GRACE = 90

function laboratoryOn(past: Past, group: TestGroup, on: Day | null): string | null {
  const [analyte] = GROUP_ANALYTES[group]
  if (analyte === undefined || on === null) return null
  return past.course.samplesOf(analyte).find((sample) => sample.on === on)?.laboratory ?? null
}

/** Audits one patient. Pure: the same history, plans, period and cut-off give the same answer. */
export function auditPatient(history: History, plans: readonly FollowUpPlan[], { from, to, cutOff }: Period, findings: FindingsAsked): PatientAudit {
  const past = pastOf(history, plans, cutOff)
  const states = [...planStates(past, findings, addDays(from, -LONGEST_GRACE))]
  const inPeriod = (on: Day): boolean => from <= on && on <= to
  const occasions = occasionsOf(states, past.done, cutOff)
    .filter(({ dueOn }) => inPeriod(dueOn))
    .map((occasion): Placed => ({ ...occasion, laboratory: laboratoryOn(past, occasion.group, occasion.doneOn ?? occasion.lastDoneOn) }))
  const { leftOn, patient } = past.course
  return {
    patientId: patient.id,
    occasions,
    overdue: overdueOn(states, earlierDay(to, cutOff)),
    days: personDays(states, from, to, cutOff),
    flagged: findings.flagged(past).filter(({ since }) => inPeriod(since)),
    watchedUntil: leftOn === null ? cutOff : earlierDay(leftOn, cutOff),
    leftUnknown: patient.status !== 'followed' && patient.statusOn === null && !past.history.events.some(({ event }) => event === 'left'),
  }
}
