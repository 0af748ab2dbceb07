import { type Period, type RowsAsked, waitOf } from '../../followup/index.ts'
import type { Reader } from '../../store/index.ts'
import { type Day, daysBetween, earlierDay } from '../../time/index.ts'
import { clinicDay } from '../clinicDay.ts'

/** Held rows that came in a period and how long each waited; results collected in it and how long each took to be filed. */
export function rowsAsked(reader: Pick<Reader, 'heldBetween' | 'arrivedBetween'>, { from, to, cutOff }: Period): RowsAsked {
  const days = new Map<string, Day>()
  const dayOf = (instant: string): Day => {
    const known = days.get(instant) ?? clinicDay(new Date(instant))
    days.set(instant, known)
    return known
  }
  const last = earlierDay(to, cutOff)
  const held = reader
    .heldBetween(from, last)
    .map(({ receivedOn, resolvedAt }) => waitOf(receivedOn, resolvedAt === null ? null : dayOf(resolvedAt), cutOff, null))
  const intake = new Map<number, number>()
  for (const { collectedOn, receivedAt, results } of reader.arrivedBetween(from, last)) {
    const received = dayOf(receivedAt)
    if (received > cutOff) continue
    const delay = Math.max(0, daysBetween(collectedOn, received))
    intake.set(delay, (intake.get(delay) ?? 0) + results)
  }
  return { held, intake }
}
