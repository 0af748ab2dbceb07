import type { LogSample } from './possibleCourses.ts'

/**
 * The place from which on samples belong together with sample `reference`: its earlier neighbours, up to the first that `isOff` by its distance from the
 * mean so far; `spread` is the standard deviation of that distance where noise alone makes it.
 */
export function levelBegins(
  samples: readonly LogSample[],
  reference: number,
  deviation: number,
  isOff: (distance: number, spread: number) => boolean,
): number {
  let begin = reference
  let sum = samples[reference]?.log ?? 0
  for (let at = reference - 1; at >= 0; at -= 1) {
    const [log, count] = [samples[at]?.log ?? 0, reference - begin + 1]
    if (isOff(log - sum / count, deviation * Math.sqrt(1 + 1 / count))) break
    sum += log
    begin = at
  }
  return begin
}
