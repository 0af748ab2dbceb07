import type { HeldRow, Reader } from '../../store/index.ts'
import { isOdd, neighboursOf } from './neighbours.ts'
import { understood } from './understood.ts'
import type { AlikeRowView } from './views.ts'

/** Rows alike that are shown in one table: what a person can look over. The page says how many there are. */
const SHOWN = 500

type Asked = Pick<Reader, 'sourceKnowledge' | 'patient' | 'resultsAround'>

function alikeRow(reader: Asked, held: HeldRow, sees: boolean): AlikeRowView {
  const { id: heldId, patientId, line, fileName, fields, collectedOn } = held
  const [near, says] = [sees ? neighboursOf(reader, held) : null, understood(reader, held)?.value ?? null]
  const at = near?.values.findIndex(({ isHeld }) => isHeld) ?? -1
  const beside = near === null ? null : (near.values[at - 1] ?? near.values[at + 1] ?? null)
  const received = `${fields.value ?? ''} ${fields.unit ?? ''}`.trim()
  return {
    heldId,
    patientId,
    line,
    fileName,
    received,
    collectedOn,
    says,
    beside: beside === null ? null : `${beside.says} on ${beside.on}`,
    odd: near !== null && isOdd(near),
  }
}

/** The rows alike as `meant` says them, those far from the patient's own values first; the others in the order they came. */
export function alikeRows(reader: Asked, rows: readonly HeldRow[], meant: (row: HeldRow) => HeldRow, sees: boolean): AlikeRowView[] {
  const views = rows.slice(0, SHOWN).map((row) => alikeRow(reader, meant(row), sees))
  return [...views.filter(({ odd }) => odd), ...views.filter(({ odd }) => !odd)]
}
