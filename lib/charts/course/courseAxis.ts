import { type Axis, linearAxis, logAxis, signedAxis } from '../valueAxis.ts'
import type { CourseMode, CoursePanel, CoursePoint, Stretch } from './coursePlan.ts'

/** How one panel is laid out in a mode: a panel that has no such layout stays as measured, and says why. */
export interface PanelLayout extends Axis {
  /** What is subtracted before drawing: the lowest confirmed value, else nothing. */
  readonly less: number
  readonly layout: CourseMode
  /** Why it is not laid out as asked, and what has no place in it; null where there is nothing to say. */
  readonly says: string | null
}

const NAMED = 3

function layoutOf({ fromZero, reference }: CoursePanel, mode: CourseMode): CourseMode {
  if (mode === 'from-lowest') return reference === null ? 'absolute' : mode
  return mode === 'logarithmic' && !fromZero ? 'absolute' : mode
}

function whyNot({ id, fromZero }: CoursePanel, mode: CourseMode): string {
  if (mode === 'logarithmic') return 'as measured: its criteria are differences'
  if (id === 'light-chains') return 'as measured: the lowest is that of dFLC'
  return fromZero ? 'as measured: no lowest value to count from' : 'as measured: not held against a lowest value'
}

const at = ({ points }: CoursePanel['series'][number]): readonly CoursePoint[] => points

/** Values that a logarithm has no place for, in words: they are said, not drawn. */
function noLogarithm({ series }: CoursePanel, shown: (point: CoursePoint) => boolean): string | null {
  const none = series.flatMap(at).filter((point) => point.at !== null && point.at <= 0 && shown(point))
  if (none.length === 0) return null
  const named = [...new Set(none.map(({ label }) => label))].slice(0, NAMED).join(', ')
  return `${none.length} ${none.length === 1 ? 'value' : 'values'} of 0 or below (${named}) ${none.length === 1 ? 'has' : 'have'} no place on a logarithmic scale`
}

/**
 * The axis of one panel over what a stretch of the course shows, marks set by then included: they hold for what comes next. Values that were taken out do not stretch
 * the axis. Numbers for drawing; nothing is computed from them.
 */
export function panelLayout(panel: CoursePanel, mode: CourseMode, { from, to }: Stretch): PanelLayout {
  const layout = layoutOf(panel, mode)
  const shown = ({ day }: CoursePoint) => day >= from && day <= to
  const less = layout === 'from-lowest' ? (panel.reference?.at ?? 0) : 0
  const points = panel.series.flatMap(at).flatMap((point) => (point.at === null || !shown(point) ? [] : [point.at]))
  const drawn = [...points, ...panel.marks.filter(({ day }) => day < to).map((mark) => mark.at)].map((value) => value - less)
  const says = layout !== mode ? whyNot(panel, mode) : layout === 'logarithmic' ? noLogarithm(panel, shown) : null
  if (layout === 'logarithmic') return { ...logAxis(drawn), less, layout, says }
  const belowZero = drawn.some((value) => value < 0)
  return {
    ...(layout === 'from-lowest' || belowZero ? signedAxis(drawn, less > 0 || layout === 'from-lowest') : linearAxis(drawn, panel.fromZero)),
    less,
    layout,
    says,
  }
}
