import { type Course, isActive, type Marker, type MeasurableBy } from '../course/index.ts'

const isPrecursor = ({ phase }: Course): boolean => phase !== null && !isActive(phase.phase)

function measured(course: Course, by: MeasurableBy): Marker<string> | null {
  const { markers } = course
  switch (by) {
    case 'serum':
      return markers['serum-m-protein']
    case 'urine':
      return markers['urine-m-protein']
    case 'light-chain':
      // In MGUS and smouldering myeloma the criterion asks for the ratio, in active disease for the difference.
      return isPrecursor(course) ? markers['involved-ratio'] : markers.dflc
    default:
      return null
  }
}

/** True for a series whose latest number is not surely 0. */
function shows({ samples }: Marker<string>): boolean {
  const latest = samples.at(-1)
  return latest !== undefined && (latest.value.high === null || latest.value.high.gt(0))
}

/**
 * The markers the disease is followed by, the first leading: what it was measurable by at baseline; where that is nothing, the quantitative
 * immunoglobulin of its class, else the first of serum M-protein, light chains and urine M-protein that shows anything (ours).
 */
export function leadingMarkers(course: Course): readonly Marker<string>[] {
  const { markers, immunoglobulin, measurableBy } = course
  const byBaseline = measurableBy.flatMap((by) => measured(course, by) ?? [])
  const instead = immunoglobulin === null || measurableBy.includes('serum') ? [] : [immunoglobulin]
  const found = [...byBaseline, ...instead].filter(({ samples }) => samples.length > 0)
  if (found.length > 0) return found
  const chains = measured(course, 'light-chain')
  return [markers['serum-m-protein'], ...(chains === null ? [] : [chains]), markers['urine-m-protein']].filter(shows).slice(0, 1)
}
