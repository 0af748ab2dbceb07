import { traceCourse } from '../../course/index.ts'
import type { FollowUpPlan } from '../../plan/index.ts'
import type { Analyte, History } from '../../results/index.ts'
import { type Finding, type FindingState, RULES, type RuleId, type Window } from '../../rules/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import { type Subject, withNext } from './nextSample.ts'

/** One patient, of whom it is asked what a next sample would do. */
export interface Question {
  readonly history: History
  readonly plan: FollowUpPlan
  readonly assessment: Assessment
  /** What is left of the work a page waits for; each asking takes of it. */
  readonly work: { left: number }
  /** What was assessed of a next sample, so that two findings of one marker do not ask for the same number twice. */
  readonly next: Map<string, Assessment>
}

/** Results that take as long to go through as one unit of work, when one rule is asked and when everything is said (measured). */
const RESULTS_A_UNIT = { asked: 60, assessed: 15 }
/**
 * Work for one patient, so that a page does not wait however long the course is (ours). Of the 166 invented patients with something open none needs so much; with
 * 150, a third of them were not told all.
 */
export const WORK = 1000

const unitsOf = ({ results }: History, by: keyof typeof RESULTS_A_UNIT): number => 1 + results.length / RESULTS_A_UNIT[by]

/** What is said in all of a patient with that history on that day. */
export function assessedThen({ plan, work }: Question, history: History, on: Day): Assessment {
  work.left -= unitsOf(history, 'assessed')
  return assess(history, plan, on)
}

/** What is said once something has come: how soon to look at the patient, and the finding that was asked for. */
export interface Then {
  readonly window: Window
  /** Null where the finding is not shown. */
  readonly state: FindingState | null
  readonly certain: boolean
}

const current = (findings: readonly Finding[], rule: RuleId): Finding | undefined => findings.find((one) => one.rule === rule && one.endedOn === null)

function assessedNext(question: Question, subject: Subject, steps: number): Assessment {
  const { history, next } = question
  const sample = `${subject.analyte} ${steps}`
  const said = next.get(sample) ?? assessedThen(question, withNext(history, subject, steps), subject.on)
  next.set(sample, said)
  return said
}

/** What would be said once a next sample has come and shown so many printed steps, in full. */
export function thenSaid(question: Question, subject: Subject, steps: number, rule: RuleId): Then {
  const { window, findings } = assessedNext(question, subject, steps)
  const found = current(findings, rule)
  return { window, state: found?.state ?? null, certain: found?.certainty === 'certain' }
}

/** What each rule asks besides the analyte it is about: all else of a history says nothing to it. */
const BESIDE: Partial<Record<Analyte, readonly Analyte[]>> = {
  'kappa-flc': ['lambda-flc', 'serum-m-protein', 'urine-m-protein', 'creatinine', 'serum-immunofixation', 'iga', 'igg', 'igm', 'igd'],
  'lambda-flc': ['kappa-flc', 'serum-m-protein', 'urine-m-protein', 'creatinine', 'serum-immunofixation', 'iga', 'igg', 'igm', 'igd'],
  'serum-m-protein': ['urine-m-protein', 'kappa-flc', 'lambda-flc', 'haemoglobin', 'iga', 'igg', 'igm', 'igd'],
  'urine-m-protein': ['serum-m-protein', 'kappa-flc', 'lambda-flc'],
  haemoglobin: ['serum-m-protein'],
  calcium: ['albumin', 'ionised-calcium'],
}

/** The history without what a rule about the analyte never asks: quicker to search in. What is found there is asked again of the whole. */
export function aboutOnly(history: History, analyte: Analyte): History {
  const asked: readonly Analyte[] = [analyte, ...(BESIDE[analyte] ?? ['serum-m-protein', 'kappa-flc', 'lambda-flc'])]
  return { ...history, results: history.results.filter((result) => asked.includes(result.analyte)) }
}

/** Whether one rule of the course shows something on that day: quicker than everything said of a patient. */
export function ruleShows({ plan, work }: Question, history: History, on: Day, rule: RuleId, wanted: (found: Finding) => boolean): boolean {
  work.left -= unitsOf(history, 'asked')
  const course = traceCourse(history, on, plan.thresholds)
  return (
    RULES.find(({ id }) => id === rule)
      ?.check(course)
      .some((found) => found.endedOn === null && wanted(found)) ?? false
  )
}
