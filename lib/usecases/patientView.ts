import { type EarlierVersion, patientCharts, patientCourse } from '../charts/index.ts'
import type { Course } from '../course/index.ts'
import { ANALYTES, type Decision, type LabResult } from '../results/index.ts'
import {
  answerChoices,
  bringBackAtMost,
  findingKey,
  type Given,
  lastAbout,
  lastToTakeBack,
  pastAnswersTo,
  takenBackBy,
  whySentence,
} from '../review/index.ts'
import {
  CAUTION_SAYS,
  derivedValues,
  type Evidence,
  type Finding,
  type FixationReading,
  immunofixationReadings,
  probabilityWords,
  readAs,
  readingMeans,
  ruleAbout,
  ruleTitle,
  says,
} from '../rules/index.ts'
import { type Assessment, type Attribution, isAttributable } from '../standing/index.ts'
import { ageAt } from '../time/index.ts'
import { correctionView } from './correctionView.ts'
import { courseRecordView } from './courseChanges/courseRecordView.ts'
import type { AnswerView, EvidenceView, FindingView, ImmunofixationView, PatientView } from './patientViews.ts'
import { personName } from './personName.ts'
import { resultViews } from './resultViews.ts'

function resultsOf(course: Course): ReadonlyMap<number, LabResult> {
  // What was taken back rests on versions that no longer count.
  const corrected = course.changes.flatMap(({ corrections }) => corrections.flatMap(({ replaced, by }) => [replaced, by]))
  const byAnalyte = ANALYTES.flatMap((analyte) => course.samplesOf(analyte))
  const byPair = course.lightChains.flatMap(({ kappa, lambda }) => [kappa, lambda])
  const all = [...corrected, ...[...byAnalyte, ...byPair].flatMap(({ results }) => results)]
  return new Map(all.map((result) => [result.id, result] as const))
}

function evidenceView({ resultIds, ...evidence }: Evidence, results: ReadonlyMap<number, LabResult>): EvidenceView {
  const sources = resultIds.flatMap((id) => {
    const result = results.get(id)
    if (result === undefined) return []
    const { fileName, line, valueText, unitText } = result.provenance
    return [{ fileName, line, received: `${valueText} ${unitText}`.trim(), laboratory: result.laboratory }]
  })
  return { ...evidence, sources }
}

function answerView(given: Given, decisions: readonly Decision[]): AnswerView {
  const { id, by, on, text } = given
  const taken = takenBackBy(decisions).get(id)
  const did = given.kind === 'handover' ? 'handed-to-physician' : (given.did ?? null)
  return { by, on, did, note: text, takenBack: taken === undefined ? null : { by: taken.by, on: taken.on } }
}

function attributionView({ decision: { id, text, by, on }, until, worsePercent }: Attribution): NonNullable<FindingView['attribution']> {
  return { id, cause: text, by, on, until, worsePercent }
}

function findingView(finding: Finding, results: ReadonlyMap<number, LabResult>, assessment: Assessment): FindingView {
  const { rule, state, certainty, window, since, endedOn, cautions, evidence, facts } = finding
  const { probability } = facts
  const { answers, handovers, attributions, changes, known } = assessment
  const { asks, source } = ruleAbout(rule)
  const { decisions } = known
  const told = (given: Given): AnswerView => answerView(given, decisions)
  const key = findingKey(finding)
  const answer = answers.get(finding) ?? null
  const handover = handovers.get(finding) ?? null
  const attribution = attributions.get(finding) ?? null
  const change = changes.get(finding)
  return {
    rule,
    key,
    title: ruleTitle(rule),
    state,
    certainty,
    window,
    since,
    endedOn,
    cautions: cautions.map((caution) => ({ caution, says: CAUTION_SAYS[caution] })),
    evidence: evidence.map((one) => evidenceView(one, results)),
    says: says(finding),
    probability: probability === undefined ? null : { words: probabilityWords(probability), value: probability },
    asks,
    source,
    answered: answer === null ? null : { ...told(answer), bringBackOn: answer.bringBackOn },
    handedOver: handover === null ? null : told(handover),
    lastDone: lastAbout(key, decisions)?.id ?? 0,
    takeBack: endedOn === null ? (lastToTakeBack(finding, decisions)?.id ?? null) : null,
    attributable: isAttributable(finding) && attribution === null,
    attribution: attribution === null ? null : attributionView(attribution),
    pastAnswers: pastAnswersTo(finding, decisions, [answer, handover], true).map(told),
    correction: change === undefined ? null : correctionView(change),
  }
}

/** The current findings of a patient as pages show them, open ones first. */
export function findingViews(assessment: Assessment): readonly FindingView[] {
  const results = resultsOf(assessment.course)
  return assessment.findings.map((finding) => findingView(finding, results, assessment))
}

function immunofixationView(read: FixationReading): ImmunofixationView {
  const { on, specimen, text, laboratory, corrected, reading } = read
  return { on, specimen, text, laboratory, corrected, reading, readAs: readAs(read), means: readingMeans(read) }
}

/**
 * One patient as the page shows it: sentences in words, every piece of evidence with the file and row it came from. `replaced` are excluded result
 * versions that no longer count for another reason, `earlier` versions that a correction has replaced. Pure.
 */
export function patientView(assessment: Assessment, replaced: readonly LabResult[] = [], earlier: readonly EarlierVersion[] = []): PatientView {
  const { asOf, course } = assessment
  const charts = patientCharts(assessment)
  const { patient, phase } = course
  const results = resultsOf(course)
  const atMost = bringBackAtMost(assessment.due, asOf)
  return {
    asOf,
    patientId: patient.id,
    name: personName(patient),
    birthDate: patient.birthDate,
    age: ageAt(patient.birthDate, asOf),
    sex: patient.sex,
    clinician: patient.clinician,
    status: patient.status,
    statusOn: patient.statusOn,
    phase: phase?.phase ?? 'unrecorded',
    phaseSince: phase?.since ?? null,
    care: course.care,
    heavyChain: course.heavyChain,
    involvedChain: course.involved?.chain ?? null,
    measurableBy: course.measurableBy,
    window: assessment.window,
    why: whySentence(assessment),
    lines: course.lines,
    courseRecord: courseRecordView(assessment),
    charts,
    course: patientCourse(assessment, charts, earlier),
    immunofixations: immunofixationReadings(course).map(immunofixationView),
    derived: derivedValues(course),
    findings: assessment.findings.map((finding) => findingView(finding, results, assessment)),
    history: assessment.history.map((finding) => findingView(finding, results, assessment)),
    due: assessment.due.map(({ group, lastDoneOn, dueOn, graceEndsOn, daysLate, because }) => ({
      group,
      lastDoneOn,
      dueOn,
      graceEndsOn,
      daysLate,
      because,
    })),
    response: assessment.response,
    risk: assessment.risk,
    held: course.held.map(({ id }) => id),
    bringBackAtMost: atMost,
    answerChoices: answerChoices(atMost, asOf),
    results: resultViews(assessment.known, replaced),
  }
}
