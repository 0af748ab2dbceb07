import type { AnswerMade, Reader } from '../../store/index.ts'
import { personName } from '../personName.ts'
import type { HandedView } from './views.ts'

/** Whom these answers handed to a physician, each once with whoever did it last, in the order of that. */
export function handedIn(made: readonly AnswerMade[]): { patientId: string; by: string }[] {
  const handed = made.filter(({ did }) => did === 'handed-to-physician')
  return [...new Map(handed.map(({ patientId, by }) => [patientId, by]))].map(([patientId, by]) => ({ patientId, by }))
}

/** With what a page shows of them. */
export function handedView(reader: Reader, handed: readonly { readonly patientId: string; readonly by: string }[]): HandedView[] {
  return handed.map(({ patientId, by }) => {
    const stored = reader.patient(patientId)
    return { patientId, name: stored === null ? null : personName(stored.patient), address: reader.patientAddress(patientId), by }
  })
}
