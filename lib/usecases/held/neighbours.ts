import { analyteUnit, field, patientIdOf, readSteps } from '../../intake/index.ts'
import type { Measured } from '../../results/index.ts'
import type { HeldRow, Reader } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import { meantHeld } from '../intake/releaseHeld.ts'
import { measuredSays, quantityText } from './understood.ts'

/** One value beside a held one: what is stored, or what the row would say if it were filed (`isHeld`). */
export interface NeighbourView {
  /** The stored result; null for the held row. */
  readonly resultId: number | null
  readonly on: Day
  /** In the unit kept. */
  readonly says: string
  /** As printed, with its unit. */
  readonly printed: string
  /** For the picture only: the value in the unit kept, of `<` and `>` its limit; null where there is no number. */
  readonly number: number | null
  readonly isHeld: boolean
}

/** The patient's values of the same analyte before and after a held row, with the row among them, oldest first. */
export interface NeighboursView {
  readonly patientId: string
  readonly analyte: string
  readonly unit: string
  readonly values: readonly NeighbourView[]
}

/** So many before and so many after: enough to see a level and its noise, few enough to read at a glance. Ours. */
const EACH = 4

function numberOf(value: Measured): number | null {
  if (value.kind === 'not-detected') return 0
  if (value.kind !== 'number') return null
  const end = value.comparator?.startsWith('<') ? value.kept.high : value.kept.low
  return end === null ? null : end.toNumber()
}

type Asked = Pick<Reader, 'sourceKnowledge' | 'patient' | 'resultsAround'>

/** The neighbours in time of a held row; null where its analyte or day could not be read, or where nobody has its identifier. */
export function neighboursOf(reader: Asked, held: HeldRow): NeighboursView | null {
  if (held.kind !== 'results') return null
  const { raw } = meantHeld(reader, held)
  const { collected, analyte, value } = readSteps(raw)
  const patientId = patientIdOf(raw)
  if (analyte === null || collected === null || reader.patient(patientId) === null) return null
  const unit = analyteUnit(analyte)?.kept ?? ''
  const view = (resultId: number | null, on: Day, measured: Measured, received: string): NeighbourView => {
    const printed = measured.kind === 'number' ? quantityText(measured.printed, measured.comparator, measured.printedUnit) : received
    return { resultId, on, says: measuredSays(measured, unit), printed, number: numberOf(measured), isHeld: resultId === null }
  }
  const stored = reader.resultsAround(patientId, analyte, collected.on, EACH).map((result) => {
    const { valueText, unitText } = result.provenance
    return view(result.id, result.collected.on, result.value, `${valueText} ${unitText}`.trim())
  })
  const received = `${field(raw, 'value')} ${field(raw, 'unit')}`.trim()
  const own: NeighbourView =
    value === null
      ? { resultId: null, on: collected.on, says: 'cannot be read', printed: received, number: null, isHeld: true }
      : view(null, collected.on, value, received)
  const before = stored.filter(({ on }) => on <= collected.on)
  return { patientId, analyte, unit, values: [...before, own, ...stored.slice(before.length)] }
}

/** How many times a held value is the one before it, or the reverse, may differ before it is shown as odd. Ours: unit slips are tenfold and more. */
const ODD_FACTOR = 3

/** Whether a held value lies far from the one before it, such as a slip of unit does; false where either is no number. */
export function isOdd({ values }: NeighboursView): boolean {
  const at = values.findIndex(({ isHeld }) => isHeld)
  const [own, before] = [values[at]?.number ?? null, values[at - 1]?.number ?? values[at + 1]?.number ?? null]
  if (own === null || before === null || own <= 0 || before <= 0) return false
  return own / before > ODD_FACTOR || before / own > ODD_FACTOR
}
