import type { LabResult } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { storedResult } from '../rows/result.ts'
import { keptIdOf } from './merges.ts'
import { joinedRecords } from './record.ts'
import { type ResultRow, SELECT_RESULTS } from './results.ts'

const NEAR = `${SELECT_RESULTS} WHERE patient_id = ? AND analyte = ? AND current = 1 AND status NOT IN ('cancelled', 'entered-in-error')`

/**
 * What counts of one analyte of a patient just before a day (that day included) and just after it, oldest first, so many each at most. Of joined records
 * what counts of all of them.
 */
export function resultsAround(connection: Connection, patientId: string, analyte: string, on: string, each: number): LabResult[] {
  const { statement } = connection
  const joined = joinedRecords(connection, keptIdOf(connection, patientId))
  if (joined !== null) {
    const own = joined.history.results.filter((result) => result.analyte === analyte)
    const before = own.filter(({ collected }) => collected.on <= on)
    return [...before.slice(-each), ...own.slice(before.length, before.length + each)]
  }
  const before = statement<ResultRow>(`${NEAR} AND collected_on <= ? ORDER BY collected_order DESC, result.id DESC LIMIT ?`)
  const after = statement<ResultRow>(`${NEAR} AND collected_on > ? ORDER BY collected_order, result.id LIMIT ?`)
  const rows = [...before.all(patientId, analyte, on, each).toReversed(), ...after.all(patientId, analyte, on, each)]
  return rows.map((row) => storedResult(row).result)
}
