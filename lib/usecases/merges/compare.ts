import { joinRecords, type PatientRecord } from '../../results/index.ts'
import type { Reader } from '../../store/index.ts'
import { personName } from '../personName.ts'
import { differencesOf } from './differences.ts'
import { mergeObstacle } from './mergeObstacle.ts'
import type { ComparisonView, RecordView } from './views.ts'

function recordView(reader: Reader, record: PatientRecord): RecordView {
  const { patient, results, events, held } = joinRecords(record, []).history
  const days = [...results.map(({ collected }) => collected.on), ...events.map(({ on }) => on)].toSorted()
  const { id, birthDate, sex, clinician, status, statusOn } = patient
  return {
    patientId: id,
    address: reader.patientAddress(id),
    name: personName(patient),
    birthDate,
    sex,
    clinician,
    status,
    statusOn,
    results: results.length,
    events: events.length,
    held: held.length,
    firstOn: days[0] ?? null,
    lastOn: days.at(-1) ?? null,
  }
}

/** Two records side by side, each as it stands alone; null where nobody has one of the identifiers. */
export function comparison(reader: Reader, fromId: string, intoId: string): ComparisonView | null {
  return reader.atOnce(() => {
    const [from, into] = [reader.record(fromId), reader.record(intoId)]
    if (from === null || into === null) return null
    const differences = fromId === intoId ? [] : differencesOf(into, from)
    return {
      from: recordView(reader, from),
      into: recordView(reader, into),
      differences,
      obstacle: mergeObstacle(reader, fromId, intoId)?.reason ?? null,
    }
  })
}
