import type { Reader } from '../../store/index.ts'

/** The number of the round the list is compared with: the one asked for where it ended, else the last that ended; null where none has. */
export function comparedWith(reader: Pick<Reader, 'round' | 'endedRounds'>, wanted: number | null): number | null {
  const asked = wanted === null ? null : reader.round(wanted)
  return asked !== null && asked.endedAt !== null ? asked.id : (reader.endedRounds(1)[0]?.id ?? null)
}
