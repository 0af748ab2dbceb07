import { type AuditChart, type ChartFile, latenessFile, onTimeFile, runFile, waitFile } from '../../charts/index.ts'
import type { Figures } from '../../followup/index.ts'
import { cautionedTable, type ExportedFile } from '../export/exportedFile.ts'

/** The charts of the audit whose numbers can be saved. */
export const AUDIT_CHARTS = ['on-time', 'run', 'review', 'second', 'lateness'] as const satisfies readonly AuditChart<unknown>['id'][]
export type AuditChartName = (typeof AUDIT_CHARTS)[number]

/** The numbers of one chart as a CSV file. */
export function chartFile(chart: AuditChartName, figures: Figures, fileName: string, about: string): ExportedFile {
  const file = <Row>({ columns, rows }: ChartFile<Row>) => cautionedTable(fileName, about, columns, rows)
  if (chart === 'on-time') return file(onTimeFile(figures))
  if (chart === 'run') return file(runFile(figures))
  if (chart === 'lateness') return file(latenessFile(figures))
  return file(waitFile(figures, chart))
}
