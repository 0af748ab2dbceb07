import type { ChartPlan } from '../chart.ts'
import { definingMarks } from '../lightChainChart.ts'
import { coursePanel, type PanelSource, type PanelWords } from './coursePanel.ts'
import type { CoursePanel } from './coursePlan.ts'
import { differenceDrawing } from './differencePanel.ts'

type Common = 'title' | 'unit' | 'marks' | 'trends' | 'sentence'

function said({ title, unit, marks, trends = [], sentence }: ChartPlan): Pick<PanelWords, Common> {
  return { title, unit, marks, trends, sentence }
}

type AnalyteChart = Exclude<ChartPlan['id'], 'light-chains' | 'immunoglobulin'>

const NAMES: Readonly<Record<AnalyteChart, string>> = {
  'serum-m-protein': 'serum M-protein',
  'urine-m-protein': 'urine M-protein',
  haemoglobin: 'haemoglobin',
  neutrophils: 'neutrophils',
  platelets: 'platelets',
  creatinine: 'creatinine',
  calcium: 'calcium',
}

function analytePanel(source: PanelSource, chart: ChartPlan, id: AnalyteChart): CoursePanel {
  const protein = id === 'serum-m-protein' || id === 'urine-m-protein' ? id : null
  return coursePanel(source, {
    ...said(chart),
    ...{ id, name: NAMES[id], fromZero: protein !== null, tests: [id] },
    series: [{ name: NAMES[id], samples: source.course.samplesOf(id) }],
    counted: protein === null ? null : { of: protein, marker: source.course.markers[protein] },
  })
}

function immunoglobulinPanel(source: PanelSource, chart: ChartPlan): readonly CoursePanel[] {
  const { immunoglobulin: marker, samplesOf, heavyChain } = source.course
  if (marker === null) return []
  const name = `quantitative Ig${heavyChain}`
  return [
    coursePanel(source, {
      ...said(chart),
      ...{ id: chart.id, name, fromZero: true, tests: [marker.name] },
      series: [{ name, samples: samplesOf(marker.name) }],
      counted: { of: 'immunoglobulin', marker },
    }),
  ]
}

/** Kappa and lambda as measured; the disease is followed by their difference, which has a panel of its own. */
function chainsPanel(source: PanelSource, chart: ChartPlan): CoursePanel {
  const { course, from } = source
  return coursePanel(source, {
    ...said(chart),
    ...{ id: chart.id, name: 'free light chains', fromZero: true, tests: ['kappa-flc', 'lambda-flc'] },
    marks: definingMarks(course, from),
    series: [
      { name: 'kappa', samples: course.samplesOf('kappa-flc') },
      { name: 'lambda', samples: course.samplesOf('lambda-flc') },
    ],
    counted: null,
  })
}

function differencePanel(source: PanelSource): readonly CoursePanel[] {
  const { course } = source
  const drawing = differenceDrawing(course)
  if (drawing === null) return []
  const marker = course.markers.dflc
  return [
    coursePanel(source, {
      ...drawing,
      ...{ id: 'dflc', title: 'dFLC, involved minus uninvolved', name: 'dFLC', unit: marker.unit, fromZero: true },
      series: [{ name: 'dFLC', samples: marker.samples }],
      counted: { of: 'dflc', marker },
      // Values taken out stand with kappa and lambda, of which this is made.
      tests: [],
    }),
  ]
}

/** The panels of one patient in the order of the charts, dFLC after the chains it is made of. */
export function coursePanels(source: PanelSource, charts: readonly ChartPlan[]): readonly CoursePanel[] {
  return charts.flatMap((chart) => {
    const { id } = chart
    if (id === 'light-chains') return [chainsPanel(source, chart), ...differencePanel(source)]
    return id === 'immunoglobulin' ? immunoglobulinPanel(source, chart) : [analytePanel(source, chart, id)]
  })
}
