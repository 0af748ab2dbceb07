import type { Measurement } from '../course/index.ts'
import type { ChartPoint } from './chart.ts'
import { drawingNumber, drawnAt, isCorrected, keptLabel } from './label.ts'

function chartPoint(sample: Measurement): ChartPoint {
  const { at, censored } = drawnAt(sample.value)
  return { on: sample.on, y: drawingNumber(at), label: keptLabel(sample), censored, corrected: isCorrected(sample), laboratory: sample.laboratory }
}

/** The points of a series, oldest first, in the unit kept. */
export function chartPoints(samples: readonly Measurement[]): readonly ChartPoint[] {
  return samples.map(chartPoint)
}
