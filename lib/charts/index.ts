/** Series -> plan of a chart: points, ticks, table, sentence. No React in here. */
export type { ChartPlan, ChartPoint, Strip } from './chart.ts'
