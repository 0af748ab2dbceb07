import type { Reader } from '../../store/index.ts'
import { personName } from '../personName.ts'
import type { Span } from './progress.ts'
import type { HandedView } from './views.ts'

/** Who was handed to a physician in a span and not taken back, each once with whoever did it last, in the order of that. */
export function handedIn(reader: Reader, { from, to }: Span): { patientId: string; by: string }[] {
  const handed = reader.answersBetween(from, to).filter(({ did }) => did === 'handed-to-physician')
  return [...new Map(handed.map(({ patientId, by }) => [reader.keptId(patientId), by]))].map(([patientId, by]) => ({ patientId, by }))
}

/** With what a page shows of them. */
export function handedView(reader: Reader, handed: readonly { readonly patientId: string; readonly by: string }[]): HandedView[] {
  return handed.map(({ patientId, by }) => {
    const stored = reader.patient(patientId)
    return { patientId, name: stored === null ? null : personName(stored.patient), address: reader.patientAddress(patientId), by }
  })
}
