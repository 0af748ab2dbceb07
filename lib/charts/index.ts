/** Series -> plan of a chart: points, ticks, table, sentence. No React in here. Parts that run in a browser have a door of their own, `inBrowser.ts`. */
export type { ChartPlan, ChartPoint, Strip } from './chart.ts'
export type { CoursePlan } from './course/coursePlan.ts'
export type { EarlierVersion } from './course/earlier.ts'
export { patientCourse } from './course/patientCourse.ts'
export { patientCharts } from './patientCharts.ts'
export { strip } from './strip.ts'
export type { Trend, TrendPoint } from './trend.ts'
