import type { Assessment } from '../standing/index.ts'
import { bloodCountChart } from './bloodCountChart.ts'
import type { ChartPlan } from './chart.ts'
import { countsShown } from './countsShown.ts'
import { immunoglobulinChart } from './immunoglobulinChart.ts'
import { lightChainChart } from './lightChainChart.ts'
import { markerChart } from './markerChart.ts'
import { sharedSpan } from './timeAxis.ts'
import { withTrends } from './withTrends.ts'

/**
 * The charts of one patient on one shared time axis. Urine stands only where it was ever measured, an immunoglobulin where it is followed, neutrophils and
 * platelets where they were measured and treatment was ever given or a danger of them is shown; every other chart says so when it is empty.
 */
export function patientCharts(assessment: Assessment): readonly ChartPlan[] {
  return chartsOf(assessment).map((plan) => withTrends(assessment.course, plan))
}

function chartsOf(assessment: Assessment): readonly ChartPlan[] {
  const { course } = assessment
  const span = sharedSpan(assessment)
  return [
    markerChart(course, 'serum-m-protein', span),
    ...(course.immunoglobulin === null ? [] : [immunoglobulinChart(course, course.immunoglobulin, span)]),
    lightChainChart(course, span),
    ...(course.samplesOf('urine-m-protein').length > 0 ? [markerChart(course, 'urine-m-protein', span)] : []),
    markerChart(course, 'haemoglobin', span),
    ...countsShown(assessment).map((count) => bloodCountChart(course, count, span)),
    markerChart(course, 'creatinine', span),
    markerChart(course, 'calcium', span),
  ]
}
