import type { NewHeld, RefusedRow, StandingRow } from '../../store/index.ts'
import type { Call } from '../call.ts'
import type { RowProblem } from '../views.ts'
import type { RowAnswer } from './fileRow.ts'
import type { Understood } from './readRow.ts'

/** What became of the rows of a part, in the order of filing. */
export interface PartTaken {
  readonly counts: Record<RowAnswer['outcome'], number>
  patientsAdded: number
  readonly problems: RowProblem[]
  readonly held: Omit<NewHeld, 'fileId'>[]
  readonly refused: RefusedRow[]
  /** Those whose history changed, with the standing that follows where all that is filed of them was planned. */
  readonly touched: Map<string, StandingRow | null>
}

export function nothingTaken(): PartTaken {
  const counts = { filed: 0, known: 0, corrected: 0, held: 0, refused: 0 }
  return { counts, patientsAdded: 0, problems: [], held: [], refused: [], touched: new Map() }
}

/** Adds what became of one row, and the standing that follows for its patient. */
export function addAnswer(
  part: PartTaken,
  { raw: { kind, line, text, fields } }: Understood,
  answer: RowAnswer,
  standing: StandingRow | null,
  { now, today }: Pick<Call, 'now' | 'today'>,
): void {
  const { outcome } = answer
  part.counts[outcome] += 1
  if (outcome === 'filed' && answer.addedPatient) part.patientsAdded += 1
  if (outcome !== 'known' && outcome !== 'refused') part.touched.set(answer.patientId, standing)
  if (outcome !== 'held' && outcome !== 'refused') return
  const { reason, sentence } = answer
  part.problems.push({ line, outcome, reason, sentence, row: text })
  if (outcome === 'refused') part.refused.push({ line, reason, sentence, row: text })
  else {
    const patientId = answer.patientId === '' ? null : answer.patientId
    const row = { line, kind, patientId, reason, sentence, row: text, fields: { ...fields } }
    part.held.push({ ...row, receivedAt: now, receivedOn: today, collectedOn: answer.on })
  }
}
