import type { Course, Marker, MarkerName } from '../../lib/course/index.ts'

function withMarkers(course: Course, otherwise: (marker: Marker) => Marker): Course {
  const markers = Object.entries(course.markers).map(([name, marker]: [string, Marker]) => [name, otherwise(marker)])
  return { ...course, markers: Object.fromEntries(markers) as Record<MarkerName, Marker> }
}

/** The same course with the plain lowest values in the place of the lowest confirmed ones: what the rules say of it is the other reading. */
export function readByLowest(course: Course): Course {
  return withMarkers(course, (marker) => ({ ...marker, lowestConfirmed: marker.lowest }))
}

/** The same course with each window beginning at its lowest value so far: what is projected no longer sees the fall before it. */
export function readFromLowest(course: Course): Course {
  return withMarkers(course, (marker) => {
    const on = marker.lowest.at(-1)?.sample.on ?? null
    const from = Math.max(
      0,
      marker.window.findIndex((sample) => sample.on === on),
    )
    return { ...marker, window: marker.window.slice(from), lowest: marker.lowest.slice(from), lowestConfirmed: marker.lowestConfirmed.slice(from) }
  })
}
