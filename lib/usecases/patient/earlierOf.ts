import type { EarlierVersion } from '../../charts/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Call } from '../call.ts'

/** Versions of results that a correction has replaced, of every record the patient is read from. */
export function earlierOf({ store }: Pick<Call, 'store'>, { course: { patient } }: Pick<Assessment, 'course'>): readonly EarlierVersion[] {
  const { reader } = store
  return [patient.id, ...reader.joinedIds(patient.id)].flatMap((id) => reader.replacedVersionsOf(id))
}
