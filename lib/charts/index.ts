/** Series -> plan of a chart: points, ticks, table, sentence. No React in here. */
export type { ChartPlan, ChartPoint, Strip } from './chart.ts'
export { patientCharts } from './patientCharts.ts'
export { strip } from './strip.ts'
export { placeOf, type Span, type TimeTick, timeTicks } from './timeAxis.ts'
export type { Trend, TrendPoint } from './trend.ts'
