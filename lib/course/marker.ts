import { baselineAt, type Opening } from './baseline.ts'
import type { Marker, MarkerName, Measurement } from './course.ts'
import { lowest, lowestConfirmed } from './lowest.ts'

/** Unit kept for each marker (clinical.md 1.3). */
export const MARKER_UNITS: Readonly<Record<MarkerName, string>> = {
  'serum-m-protein': 'g/L',
  'urine-m-protein': 'mg/24 h',
  dflc: 'mg/L',
  'involved-flc': 'mg/L',
  'involved-ratio': '1',
  haemoglobin: 'g/L',
  calcium: 'mmol/L',
  creatinine: 'umol/L',
}

/** A marker over time from its samples, oldest first. Without a baseline the window is empty. */
export function markerOf(name: MarkerName, samples: readonly Measurement[], opening: Opening | null): Marker {
  return seriesOf(name, MARKER_UNITS[name], samples, opening)
}

/** Any series followed like a marker, in one unit, oldest first. */
export function seriesOf<N extends string>(name: N, unit: string, samples: readonly Measurement[], opening: Opening | null): Marker<N> {
  const at = baselineAt(samples, opening)
  const window = at === null ? [] : samples.slice(at)
  return {
    name,
    unit,
    samples,
    window,
    baseline: window[0] ?? null,
    lowest: lowest(window),
    lowestConfirmed: lowestConfirmed(window),
  }
}
