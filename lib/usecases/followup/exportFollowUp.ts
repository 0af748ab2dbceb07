import { fileShare } from '../../charts/index.ts'
import { type Dimension, type Figures, type GroupRow, NOT_RECORDED, type OnTime } from '../../followup/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Columns, cautionedTable, type ExportedFile } from '../export/exportedFile.ts'
import type { Progress } from '../intake/incoming.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type AuditChartName, chartFile } from './chartFile.ts'
import { workOutFollowUpApart } from './followUpApart.ts'
import { keptAudit } from './keptAudits.ts'
import { type FollowUp, readFollowUp, recordReading } from './readFollowUp.ts'
import { type FollowUpWish, readFollowUpWish } from './readWish.ts'

/** A period, and by what the file tells it apart; null for the whole alone. With a chart, the numbers of that instead. */
export type ExportWish = FollowUpWish & { readonly by: Dimension | null; readonly chart?: AuditChartName | null }

type Row = OnTime & { readonly key: string }

function columns(by: Dimension | null): Columns<Row> {
  return [
    [by ?? 'all', ({ key }) => key],
    ['due', ({ due }) => due],
    ['on time', ({ onTime }) => onTime],
    ['late', ({ late }) => late],
    ['missed', ({ missed }) => missed],
    ['share on time', ({ proportion }) => fileShare(proportion)],
    ['95 % from', ({ wilson95 }) => fileShare(wilson95?.[0])],
    ['95 % to', ({ wilson95 }) => fileShare(wilson95?.[1])],
  ]
}

/** The rows of a table as they leave the program. Under pseudonyms nobody of the clinic stands in them by name: paper and files travel further than a page. */
export function rowsToLeave({ by }: Pick<Figures, 'by'>, told: Dimension, role: Call['actor']['role']): readonly GroupRow[] {
  const rows = by[told]
  if (told !== 'clinician' || role !== 'quality') return rows
  return rows.map((row, at) => {
    // Where no clinician is recorded nobody is named, and a number would make somebody of it.
    const isNamed = row.keys.length === 1 && row.key !== NOT_RECORDED
    return isNamed ? { ...row, key: `clinician ${at + 1}`, keys: [`clinician ${at + 1}`] } : row
  })
}

function fileOf({ actor }: Call, { figures, revision, sha256 }: FollowUp, { by, chart = null }: Pick<ExportWish, 'by' | 'chart'>): ExportedFile {
  const { from, to, cutOff } = figures
  const about = `Follow-up audit from ${from} to ${to}, data up to ${cutOff}, revision ${revision}, SHA-256 of its figures ${sha256}.`
  if (chart !== null) return chartFile(chart, figures, `follow-up-${chart}-${from}-${to}.csv`, about)
  const groups = by === null ? [] : rowsToLeave(figures, by, actor.role)
  return cautionedTable(`follow-up-${from}-${to}.csv`, about, columns(by), [{ ...figures.onTime, key: 'all' }, ...groups])
}

/** On-time testing of a period as a CSV file: the whole, then its groups. Logs that it was saved. */
export async function exportFollowUp(
  call: Call,
  { by, chart = null, ...wish }: ExportWish,
  onProgress?: (progress: Progress) => void,
): Promise<Outcome<ExportedFile>> {
  const read = await readFollowUp(call, wish, { as: 'file', ...(onProgress === undefined ? {} : { onProgress }) })
  return read.ok ? { ok: true, value: fileOf(call, read.value, { by, chart }) } : read
}

/** The same of the audit as it was worked out last and as its page shows it; one that is kept no longer is worked out in a process of its own. */
export async function exportKeptFollowUp(call: Call, { by, chart = null, ...wish }: ExportWish): Promise<Outcome<ExportedFile>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const read = readFollowUpWish(call, wish)
  if (!read.ok) return read
  const kept = keptAudit(call.store, read.value)
  const audit: Outcome<FollowUp> = kept === null ? await workOutFollowUpApart(call, wish) : { ok: true, value: kept }
  if (!audit.ok) return audit
  await recordReading(call, audit.value, wish.whatIf, 'file')
  return { ok: true, value: fileOf(call, audit.value, { by, chart }) }
}
