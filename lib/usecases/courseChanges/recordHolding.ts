import type { CourseEvent } from '../../results/index.ts'
import type { Reader } from '../../store/index.ts'

/**
 * The record a change of something is kept with, of records that are read as one: the one that was told of it, so that the change goes with it when the
 * records are read apart again. The kept record where it was told too, or nobody was.
 */
export function recordHolding(reader: Reader, keptId: string, isAbout: (event: CourseEvent) => boolean): string {
  const holds = (patientId: string): boolean =>
    reader.eventVersionsOf(patientId).some(({ current, takenBack, event }) => current && !takenBack && isAbout(event))
  return [keptId, ...reader.joinedIds(keptId)].find(holds) ?? keptId
}
