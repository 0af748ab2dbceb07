import { scaleLinear } from '@visx/scale'
import { MOST_FALSE_PROJECTIONS } from '../aims.ts'
import type { Figures } from '../figures.ts'
import { SETTINGS, type Setting, USUAL_SETTING } from '../settings.ts'
import { heading, xAxis, yAxis } from './axes.ts'
import { lookOf } from './series.ts'
import { type Frame, INK, legend, line, mark, path, words } from './svg.ts'

const curveOf = ({ from, months, samples }: Setting): string => `${from} ${months} ${samples}`
const lookFor = ({ from, months }: Setting) => lookOf(from === 'lowest' ? 2 : months < 12 ? 1 : 0)
const nameOf = ({ from, months, samples }: Setting): string =>
  months < 12 ? `${months} months` : `${from === 'lowest' ? 'lowest ' : ''}>= ${samples}`

/** Heights of labels beside these places: one that would stand on another moves down below it. */
function apart(places: readonly (readonly [number, number])[]): readonly number[] {
  const heights: number[] = []
  places.forEach(([x, y], at) => {
    let height = y
    const hides = () => places.slice(0, at).some(([other], before) => Math.abs(other - x) < 60 && Math.abs((heights[before] ?? 0) - height) < 12)
    while (hides()) height += 3
    heights.push(height)
  })
  return heights
}

/** What each setting of the projection gives against what it costs, over serum progression: one curve a number of samples, its points the confidence. */
export function settingsPanel({ settings }: Figures, frame: Frame): string {
  const serum = settings.filter(({ rule, setting }) => rule === 'pd-serum' && setting.samples <= 4)
  const most = Math.max(...serum.map(({ falsely }) => falsely.per100), MOST_FALSE_PROJECTIONS)
  const share = Math.max(...serum.map(({ leads }) => leads.first.share))
  const x = scaleLinear<number>({ domain: [0, most * 1.12], range: [frame.left, frame.right], nice: true })
  const y = scaleLinear<number>({ domain: [0, share * 1.4], range: [frame.bottom, frame.top], nice: true })
  const curves = [...new Set(serum.map(({ setting }) => curveOf(setting)))].map((name) => serum.filter(({ setting }) => curveOf(setting) === name))
  const places = curves.map((curve) => curve.map(({ falsely, leads }) => [x(falsely.per100), y(leads.first.share)] as const))
  const heights = apart(places.map(([end]) => end ?? [0, 0]))
  const drawn = curves.map((curve, at) => {
    const [first, points] = [curve[0], places[at] ?? []]
    const end = points[0]
    if (first === undefined || end === undefined) return ''
    const look = lookFor(first.setting)
    const marks = points.map(([px, py]) => mark(px, py, look)).join('')
    return `${path(points, look)}${marks}${words(end[0] + 10, (heights[at] ?? end[1]) + 4.5, nameOf(first.setting), { size: 12, colour: look.colour })}`
  })
  const usual = serum.find(({ setting }) => setting === SETTINGS[USUAL_SETTING])
  const ring =
    usual === undefined
      ? ''
      : `<circle cx="${x(usual.falsely.per100)}" cy="${y(usual.leads.first.share)}" r="10" fill="none" stroke="${INK}" stroke-width="2"/>`
  return [
    heading(frame, 'E  Settings of projected-crossing, over pd-serum'),
    yAxis(
      frame,
      y.ticks(6).map((tick) => ({ at: y(tick), label: `${Math.round(100 * tick)} %` })),
      'relapses it comes first in',
    ),
    xAxis(
      frame,
      x.ticks(8).map((tick) => ({ at: x(tick), label: String(tick) })),
      'false flags per 100 patient-years; along a curve 97.5, 95, 90, 80 % confidence',
    ),
    line(x(MOST_FALSE_PROJECTIONS), frame.top + 60, x(MOST_FALSE_PROJECTIONS), frame.bottom, INK, 1.4, '4 4'),
    words(x(MOST_FALSE_PROJECTIONS) + 5, frame.bottom - 8, `aim: at most ${MOST_FALSE_PROJECTIONS}`),
    ...drawn,
    ring,
    legend(frame.left + 14, frame.top + 8, [
      'from the baseline, 12 months, samples at least; ringed: as it comes',
      'from the baseline, fewer months, 3 samples',
      'from the lowest value on, 12 months, samples at least',
    ]),
  ].join('')
}
