import { type Course, hasNumber, lightChainPairs, type Measurement } from '../course/index.ts'
import { criterionFor } from '../rules/index.ts'
import { decimalText } from '../units/index.ts'
import { bandsOf } from './bands.ts'
import { breaksOf } from './breaks.ts'
import type { ChartPlan } from './chart.ts'
import { drawnAt, keptLabel } from './label.ts'
import { type ChartMark, levelText, markAt } from './marks.ts'
import { chartPoints } from './points.ts'
import { changedSentence, valueOn } from './sentence.ts'
import { tableOf } from './table.ts'
import type { Span } from './timeAxis.ts'
import { logAxis } from './valueAxis.ts'

const UNIT = 'mg/L'

// dFLC itself has no place on an axis of kappa and lambda: its marks stand where the involved chain lies, or would lie with the other as last measured.
function differenceMarks(course: Course): readonly ChartMark[] {
  const pairs = lightChainPairs(course)
  const latest = pairs.at(-1)
  const lowest = course.markers.dflc.lowest.at(-1)?.sample
  const lowestPair = pairs.find((pair) => pair.on === lowest?.on)
  if (latest === undefined || lowest === undefined || lowestPair === undefined) return []
  const from = drawnAt(lowest.value).at
  const mark = markAt('lowest', drawnAt(lowestPair.involved).at, lowest.on, course.today, `lowest dFLC ${keptLabel(lowest)} ${UNIT}`)
  const criterion = criterionFor(course, 'dflc', from)
  if (criterion === null) return [mark]
  const words = levelText(`${differenceEvent(course)}: dFLC`, criterion, UNIT)
  return [mark, markAt('criterion', criterion.at.plus(drawnAt(latest.uninvolved).at), lowest.on, course.today, words)]
}

/** What a rise of dFLC to its criterion would be: where serum or urine measure the disease it is no progression by itself. */
export function differenceEvent({ measurableBy }: Course): 'light-chain escape' | 'progression' {
  return measurableBy.some((by) => by === 'serum' || by === 'urine') ? 'light-chain escape' : 'progression'
}

/** The event needs a ratio of 100 and an involved chain of 100 mg/L: with the other chain as last measured, the higher of the two decides. */
export function definingMarks(course: Course, from: Span['from']): readonly ChartMark[] {
  const uninvolved = lightChainPairs(course).at(-1)?.uninvolved
  const [ratio, least] = [criterionFor(course, 'involved-ratio', null), criterionFor(course, 'involved-flc', null)]
  if (uninvolved === undefined || ratio === null || least === null || course.involved === null) return []
  const byRatio = ratio.at.times(drawnAt(uninvolved).at)
  const at = byRatio.gt(least.at) ? byRatio : least.at
  const words = `myeloma-defining at ${course.involved.chain} ${decimalText(at)} ${UNIT}`
  return [markAt('criterion', at, from, course.today, words)]
}

function sentenceOf(course: Course, kappa: readonly Measurement[], lambda: readonly Measurement[], marks: readonly ChartMark[]): string {
  const latest = [...kappa, ...lambda].reduce<Measurement | null>((last, sample) => (last === null || sample.on > last.on ? sample : last), null)
  if (latest === null) return 'No free light chain result is recorded.'
  const of = (samples: readonly Measurement[], name: string) =>
    samples.filter((sample) => sample.on === latest.on).map((sample) => `${name} ${keptLabel(sample)} ${UNIT}`)
  const chains = `Free light chains on ${latest.on}: ${[...of(kappa, 'kappa'), ...of(lambda, 'lambda')].join(', ')}`
  if (course.involved === null) return `${chains}. Which chain is involved is not known, so no light-chain rule runs.`
  const { lowest, samples } = course.markers.dflc
  const current = samples.at(-1)
  const mark = lowest.at(-1)
  const difference = current === undefined ? '' : `; dFLC (${course.involved.chain} involved) ${valueOn(current, UNIT)}`
  const held = mark === null || mark === undefined ? '' : mark.sample.on === current?.on ? ', the lowest' : `, lowest ${valueOn(mark.sample, UNIT)}`
  const criterion = marks.find(({ kind }) => kind === 'criterion')
  const changed = changedSentence(mark?.sample ?? null, current ?? null)
  return `${chains}${difference}${held}.${changed}${criterion === undefined ? '' : ` ${criterion.label.charAt(0).toUpperCase()}${criterion.label.slice(1)}.`}`
}

/** Kappa and lambda on a logarithmic axis; the table adds dFLC where the involved chain is known. */
export function lightChainChart(course: Course, span: Span): ChartPlan {
  const [kappa, lambda] = [course.samplesOf('kappa-flc'), course.samplesOf('lambda-flc')]
  const series = [
    { name: 'kappa', points: chartPoints(kappa.filter(hasNumber)), breaks: breaksOf(kappa.filter(hasNumber)) },
    { name: 'lambda', points: chartPoints(lambda.filter(hasNumber)), breaks: breaksOf(lambda.filter(hasNumber)) },
  ]
  const marks = [...differenceMarks(course), ...definingMarks(course, span.from)]
  const dflc = course.markers.dflc.samples
  return {
    id: 'light-chains',
    title: 'Free light chains',
    unit: UNIT,
    ...span,
    ...logAxis([...series.flatMap(({ points }) => points.map((point) => point.y)), ...marks.map((mark) => mark.y)]),
    series,
    bands: bandsOf(course),
    marks,
    table: tableOf([
      { name: 'kappa', unit: UNIT, samples: kappa },
      { name: 'lambda', unit: UNIT, samples: lambda },
      ...(dflc.length > 0 ? [{ name: 'dFLC', unit: UNIT, samples: dflc }] : []),
    ]),
    sentence: sentenceOf(course, kappa.filter(hasNumber), lambda.filter(hasNumber), marks),
  }
}
