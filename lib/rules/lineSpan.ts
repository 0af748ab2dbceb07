import type { Course, Marker, Measurement } from '../course/index.ts'

/** Samples that belong to the current line: its window of comparison, or without a baseline those from the start of the line on. */
export function samplesOfLine({ line }: Course, marker: Marker): readonly Measurement[] {
  if (marker.window.length > 0 || line === null) return marker.window
  return marker.samples.filter((sample) => sample.on >= line.start)
}
