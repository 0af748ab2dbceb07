import { type Course, hasNumber, type MarkerName, type Measurement } from '../course/index.ts'
import type { Analyte } from '../results/index.ts'
import { bandsOf } from './bands.ts'
import { breaksOf } from './breaks.ts'
import type { ChartPlan } from './chart.ts'
import { type ChartMark, lowestMarks, progressionMark } from './marks.ts'
import { calciumMarks, creatinineMarks, haemoglobinMarks } from './organMarks.ts'
import { chartPoints } from './points.ts'
import { comparedSentence, marksSentence } from './sentence.ts'
import { tableOf } from './table.ts'
import type { Span } from './timeAxis.ts'
import { linearAxis } from './valueAxis.ts'

type Id = ChartPlan['id'] & MarkerName & Analyte

interface Drawing {
  readonly title: string
  readonly fromZero: boolean
  readonly marks: (course: Course, span: Span) => readonly ChartMark[]
  readonly reference: (course: Course) => { readonly sample: Measurement; readonly words: string } | null
}

function protein(id: Id): Pick<Drawing, 'marks' | 'reference'> {
  return {
    marks: (course) => [...lowestMarks(course, id), ...[progressionMark(course, id)].filter((mark) => mark !== null)],
    reference: (course) => {
      const sample = course.markers[id].lowest.at(-1)?.sample
      return sample === undefined ? null : { sample, words: 'lowest' }
    },
  }
}

function fromPrevious(id: Id): Drawing['reference'] {
  return (course) => {
    const sample = course.markers[id].samples.at(-2)
    return sample === undefined ? null : { sample, words: 'sample before' }
  }
}

const DRAWINGS: Readonly<Record<Id, Drawing>> = {
  'serum-m-protein': { title: 'Serum M-protein', fromZero: true, ...protein('serum-m-protein') },
  'urine-m-protein': { title: 'Urine M-protein', fromZero: true, ...protein('urine-m-protein') },
  haemoglobin: { title: 'Haemoglobin', fromZero: false, marks: haemoglobinMarks, reference: fromPrevious('haemoglobin') },
  creatinine: { title: 'Creatinine', fromZero: false, marks: creatinineMarks, reference: fromPrevious('creatinine') },
  calcium: { title: 'Calcium', fromZero: false, marks: calciumMarks, reference: fromPrevious('calcium') },
}

function sentenceOf(title: string, course: Course, id: Id, marks: readonly ChartMark[]): string {
  const { samples, unit } = course.markers[id]
  const current = samples.at(-1)
  const inWords = course.samplesOf(id).at(-1)
  const name = title.startsWith('Serum') || title.startsWith('Urine') ? title.charAt(0).toLowerCase() + title.slice(1) : title.toLowerCase()
  if (inWords === undefined) return `No ${name} result is recorded.`
  // A later sample in words without a number ("trace") is the latest there is, and is said first.
  const later =
    current === undefined || inWords.on > current.on
      ? `${title} on ${inWords.on}: ${inWords.words ?? 'no number'}, which has no place in the picture. `
      : ''
  if (current === undefined) return later.trimEnd()
  const reference = DRAWINGS[id].reference(course)
  return `${later}${comparedSentence(title, current, reference?.sample ?? null, reference?.words ?? '', unit)}${marksSentence(marks, ['criterion', 'lowest-confirmed'])}`
}

/** The chart of one marker that is one analyte. */
export function markerChart(course: Course, id: Id, span: Span): ChartPlan {
  const { title, fromZero, marks: marksOf } = DRAWINGS[id]
  const { samples, unit } = course.markers[id]
  const points = chartPoints(samples.filter(hasNumber))
  const marks = points.length === 0 ? [] : marksOf(course, span)
  return {
    id,
    title,
    unit,
    ...span,
    ...linearAxis([...points.map((point) => point.y), ...(points.length === 0 ? [] : marks.map((mark) => mark.y))], fromZero),
    series: [{ name: title, points, breaks: breaksOf(samples) }],
    bands: bandsOf(course),
    marks,
    table: tableOf([{ name: title, unit, samples: course.samplesOf(id) }]),
    sentence: sentenceOf(title, course, id, marks),
  }
}
