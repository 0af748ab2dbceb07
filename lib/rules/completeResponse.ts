import type { Course, Sample } from '../course/index.ts'
import { compareDays, type Day, laterDay } from '../time/index.ts'
import { below, decimal } from '../units/index.ts'

const FEW_PLASMA_CELLS = decimal('5')

/** What complete response asks for, each part as last seen. */
interface Parts {
  readonly serum: boolean
  readonly urine: boolean
  readonly marrow: boolean
}

interface Seen {
  readonly on: Day
  readonly parts: Partial<Parts>
}

function fixations(samples: readonly Sample[], part: 'serum' | 'urine'): Seen[] {
  return samples.flatMap(({ on, results }) => {
    const value = results[0]?.value
    const reading = value?.kind === 'immunofixation' ? value.reading.reading : 'unread'
    return reading === 'negative' || reading === 'positive' ? [{ on, parts: { [part]: reading === 'negative' } }] : []
  })
}

function marrows({ marrow }: Course): Seen[] {
  return marrow.flatMap(({ on, percent }) => (percent === null ? [] : [{ on, parts: { marrow: below(percent, FEW_PLASMA_CELLS) === 'certain' } }]))
}

/**
 * The first day of the current line on which the patient stood in complete response (IMWG 2016, Kumar, Lancet Oncol 17:e328): immunofixation
 * negative in serum and in urine and marrow plasma cells below 5 %, each as last seen since active disease began. A response that was reached
 * before the line and still stood at its start counts from that start. Null where a part was never seen.
 */
export function completeResponseOn(course: Course): Day | null {
  const since = course.phase?.since
  if (since === undefined) return null
  const opened = laterDay(course.line?.start ?? since, since)
  const seen = [
    ...fixations(course.samplesOf('serum-immunofixation'), 'serum'),
    ...fixations(course.samplesOf('urine-immunofixation'), 'urine'),
    ...marrows(course),
  ].filter(({ on }) => on >= since)
  const days = new Map<Day, Partial<Parts>>([[opened, {}]])
  for (const { on, parts } of seen) days.set(on, { ...days.get(on), ...parts })
  let parts: Parts = { serum: false, urine: false, marrow: false }
  for (const [on, changed] of [...days].sort(([a], [b]) => compareDays(a, b))) {
    parts = { ...parts, ...changed }
    if (on >= opened && parts.serum && parts.urine && parts.marrow) return on
  }
  return null
}
