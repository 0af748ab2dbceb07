import { analyteUnit, field, patientIdOf, readSteps } from '../../intake/index.ts'
import type { Comparator, Measured } from '../../results/index.ts'
import type { HeldRow, Reader } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import { decimalText, type Interval } from '../../units/index.ts'
import { meantHeld } from '../intake/releaseHeld.ts'

/** How far a held row of results could be read; null where a column could not be, or where what it needs could not. */
export interface UnderstoodView {
  /** The patient by what is known of the source; `patientKnown` says whether anybody has this identifier. */
  readonly patientId: string | null
  readonly patientKnown: boolean
  readonly collectedOn: Day | null
  readonly analyte: string | null
  /** In the unit kept, in words such as "106 g/L" or "not detected". */
  readonly value: string | null
  /** As printed, where the unit printed is another than the one kept. */
  readonly printed: string | null
  readonly keptUnit: string | null
}

/** A number with its comparator and unit, as a row of a table says it. */
export function quantityText({ low, high }: Interval, comparator: Comparator | null, unit: string): string {
  const end = comparator?.startsWith('<') ? high : low
  const number = end === null ? '' : decimalText(end)
  return `${comparator ?? ''}${number} ${unit === '1' ? '' : unit}`.trim()
}

/** What a report says of one analyte, in words and in the unit kept. */
export function measuredSays(value: Measured, unit: string): string {
  if (value.kind === 'number') return quantityText(value.kept, value.comparator, unit)
  if (value.kind === 'none') return `no value (${value.reason})`
  if (value.kind === 'present') return value.upTo === null ? 'present, not quantified' : `present, up to ${decimalText(value.upTo)} ${unit}`
  return value.kind === 'immunofixation' ? 'an immunofixation' : 'not detected'
}

/** How far a held row can be read by what is known now; null for rows that are no results. */
export function understood(reader: Pick<Reader, 'sourceKnowledge' | 'patient'>, held: HeldRow): UnderstoodView | null {
  if (held.kind !== 'results') return null
  const { raw } = meantHeld(reader, held)
  const { collected, analyte, value } = readSteps(raw)
  const keptUnit = analyte === null ? null : (analyteUnit(analyte)?.kept ?? null)
  const isPrintedOtherwise = value?.kind === 'number' && value.printedUnit !== keptUnit
  return {
    patientId: patientIdOf(raw) || null,
    patientKnown: reader.patient(patientIdOf(raw)) !== null,
    collectedOn: collected?.on ?? null,
    analyte,
    value: value === null ? null : measuredSays(value, keptUnit ?? ''),
    printed: isPrintedOtherwise ? quantityText(value.printed, value.comparator, field(raw, 'unit') || value.printedUnit) : null,
    keptUnit,
  }
}
