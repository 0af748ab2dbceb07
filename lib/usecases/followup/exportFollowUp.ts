import type { Figures, GroupRow, OnTime } from '../../followup/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Columns, cautionedTable, type ExportedFile } from '../export/exportedFile.ts'
import type { Progress } from '../intake/incoming.ts'
import type { DocumentBy } from './followUpDocument.ts'
import { readFollowUp } from './readFollowUp.ts'
import type { FollowUpWish } from './readWish.ts'

type Row = OnTime & { readonly key: string }

// Four places: one more than any interval here is worth.
const share = (value: number | null | undefined): string | null => (value === null || value === undefined ? null : value.toFixed(4))

function columns(by: DocumentBy | null): Columns<Row> {
  return [
    [by ?? 'all', ({ key }) => key],
    ['due', ({ due }) => due],
    ['on time', ({ onTime }) => onTime],
    ['late', ({ late }) => late],
    ['missed', ({ missed }) => missed],
    ['share on time', ({ proportion }) => share(proportion)],
    ['95 % from', ({ wilson95 }) => share(wilson95?.[0])],
    ['95 % to', ({ wilson95 }) => share(wilson95?.[1])],
  ]
}

// Nobody of the clinic by name in a file under pseudonyms: it travels further than a page.
function rowsOf({ onTime, by }: Figures, told: DocumentBy | null, staff: boolean): readonly Row[] {
  const groups: readonly GroupRow[] = told === null ? [] : by[told]
  const named = groups.map((row, at) => (told === 'clinician' && !staff && row.keys.length === 1 ? { ...row, key: `clinician ${at + 1}` } : row))
  return [{ ...onTime, key: 'all' }, ...named]
}

/** On-time testing of a period as a CSV file: the whole, then its groups. Logs that it was saved. */
export async function exportFollowUp(
  call: Call,
  wish: FollowUpWish & { readonly by: DocumentBy | null },
  onProgress?: (progress: Progress) => void,
): Promise<Outcome<ExportedFile>> {
  const { by, ...asked } = wish
  const read = await readFollowUp(call, asked, { as: 'file', ...(onProgress === undefined ? {} : { onProgress }) })
  if (!read.ok) return read
  const { figures, revision, sha256 } = read.value
  const { from, to, cutOff } = figures
  const about = `Follow-up audit from ${from} to ${to}, data up to ${cutOff}, revision ${revision}, SHA-256 of its figures ${sha256}.`
  const rows = rowsOf(figures, by, call.actor.role !== 'quality')
  return { ok: true, value: cautionedTable(`follow-up-${from}-${to}.csv`, about, columns(by), rows) }
}
