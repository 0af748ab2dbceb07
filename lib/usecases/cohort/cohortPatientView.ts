import type { EarlierVersion } from '../../charts/index.ts'
import type { LabResult } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { ageBand } from '../../time/index.ts'
import type { LookView } from '../look/views.ts'
import { patientView } from '../patientView.ts'
import type { AnswerView, CorrectionView, EvidenceView, FindingView, PatientView, ReportView, ResultView } from '../patientViews.ts'
import type {
  CohortAnswerView,
  CohortCorrectionView,
  CohortEvidenceView,
  CohortFindingView,
  CohortPatientView,
  CohortReportView,
  CohortResultView,
} from './views.ts'
import { withoutAnnotations } from './withoutAnnotations.ts'
import { withoutText, withoutTexts } from './withoutTexts.ts'

/** Computed with the age: with creatinine and sex they tell it. */
const TELLS_AGE = ['eGFR', 'Creatinine clearance']

function evidence({ role, analyte, value, unit, comparator, collectedOn, sources }: EvidenceView): CohortEvidenceView {
  const laboratories = [...new Set(sources.map(({ laboratory }) => laboratory))]
  return { role, analyte, value, unit, comparator, collectedOn, sources: laboratories.map((laboratory) => ({ laboratory })) }
}

function answer({ by, on, did, note, takenBack }: AnswerView): CohortAnswerView {
  return { by, on, did, note: note === '' ? '' : null, takenBack }
}

function report({ received, status, laboratory }: ReportView): CohortReportView {
  return { received, status, laboratory }
}

function correction({ id, what, on, says, reports, decided }: CorrectionView): CohortCorrectionView {
  const plain = reports.map(({ analyte, collectedOn, before, now }) => ({
    analyte,
    collectedOn,
    before: report(before),
    now: now === null ? null : report(now),
  }))
  return { id, what, on, says, reports: plain, decided }
}

function attribution({ by, on, until, worsePercent }: NonNullable<FindingView['attribution']>): CohortFindingView['attribution'] {
  return { by, on, until, worsePercent, cause: null }
}

function finding(view: FindingView): CohortFindingView {
  const { rule, title, state, certainty, window, since, endedOn, cautions, says, probability, asks, source } = view
  return {
    ...{ rule, title, state, certainty, window, since, endedOn, cautions, says, probability, asks, source },
    evidence: view.evidence.map(evidence),
    answered: view.answered === null ? null : { ...answer(view.answered), bringBackOn: view.answered.bringBackOn },
    handedOver: view.handedOver === null ? null : answer(view.handedOver),
    attribution: view.attribution === null ? null : attribution(view.attribution),
    pastAnswers: view.pastAnswers.map(answer),
    correction: view.correction === null ? null : correction(view.correction),
  }
}

function result({ resultId, analyte, collectedOn, received, laboratory, method, version, status, excluded }: ResultView): CohortResultView {
  const plain = excluded === null ? null : { by: excluded.by, on: excluded.on, reason: null }
  return { resultId, analyte, collectedOn, received, laboratory, method, version, status, excluded: plain }
}

function standing(view: PatientView): Pick<CohortPatientView, Exclude<keyof PatientView & keyof CohortPatientView, Left>> {
  const { asOf, sex, clinician, status, statusOn, phase, phaseSince, care, heavyChain, involvedChain, measurableBy, window, why } = view
  const { charts, course, due, response, risk } = view
  return {
    ...{ asOf, sex, clinician, status, statusOn, phase, phaseSince, care, heavyChain, involvedChain, measurableBy, window, why },
    ...{ charts, course, due, response, risk },
  }
}
type Left = 'patientId' | 'name' | 'birthDate' | 'age' | 'immunofixations' | 'derived' | 'findings' | 'history' | 'results'

/** One patient under a pseudonym, field by field: what is not named here is not in it. Pure. */
export function cohortPatientView(
  assessment: Assessment,
  pseudonym: string,
  versions: { readonly replaced: readonly LabResult[]; readonly earlier: readonly EarlierVersion[] },
  look: LookView,
): CohortPatientView {
  const earlier = versions.earlier.map((version) => ({ ...version, result: withoutText(version.result) }))
  const view = patientView(withoutTexts(assessment), versions.replaced.map(withoutText), earlier)
  return withoutAnnotations({
    ...standing(view),
    pseudonym,
    look,
    ageBand: ageBand(assessment.course.patient.birthDate, assessment.asOf),
    immunofixations: view.immunofixations.map(({ on, specimen, laboratory, corrected, reading, readAs, means }) => ({
      ...{ on, specimen, laboratory, corrected, reading, readAs, means },
      text: null,
    })),
    derived: view.derived.filter(({ name }) => !TELLS_AGE.includes(name)),
    findings: view.findings.map(finding),
    history: view.history.map(finding),
    heldRows: view.held.length,
    results: view.results.map(result),
  })
}
