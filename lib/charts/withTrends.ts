import type { Course } from '../course/index.ts'
import type { ChartPlan } from './chart.ts'
import { type Trend, trendOf } from './trend.ts'

function trendsOf(course: Course, id: ChartPlan['id']): readonly (Trend | null)[] {
  if (id === 'serum-m-protein') return [trendOf(course, id, 'Serum M-protein', true)]
  if (id === 'urine-m-protein') return [trendOf(course, id, 'Urine M-protein', true)]
  if (id !== 'light-chains' || course.involved === null) return []
  return [trendOf(course, 'dflc', 'dFLC', false), trendOf(course, 'involved-flc', `Involved chain (${course.involved.chain})`, true)]
}

/** A chart with the trends of what it shows. dFLC has no place on an axis of kappa and lambda, so its trend is in words alone. */
export function withTrends(course: Course, plan: ChartPlan): ChartPlan {
  const trends = trendsOf(course, plan.id).filter((trend) => trend !== null)
  return trends.length === 0 ? plan : { ...plan, trends }
}
