import type { SourceKnowledge } from '../../intake/index.ts'
import type { Reader } from '../../store/index.ts'
import { rememberingPatients } from '../intake/readRow.ts'

/** Asks for each source and each patient once, however many rows name them. */
export function rememberingReader(reader: Reader): Pick<Reader, 'sourceKnowledge' | 'patient' | 'resultsAround'> {
  const known = new Map<string | null, SourceKnowledge>()
  return {
    patient: rememberingPatients(reader.patient),
    resultsAround: reader.resultsAround,
    sourceKnowledge(source) {
      const found = known.get(source) ?? reader.sourceKnowledge(source)
      known.set(source, found)
      return found
    },
  }
}
