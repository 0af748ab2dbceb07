import type { TrailHead } from '../trail/index.ts'
import type { TrailCheck } from './read/trail.ts'
import type { Reader } from './reader.ts'

/** Checks the whole log against its chain; `onRows` hears how far it is. */
export function verifyTrail(reader: Reader, onRows?: (done: number, of: number) => void): TrailCheck {
  return reader.verifyTrail(onRows)
}

/** The last row's number and hash; kept elsewhere, it shows a tail that was cut off. */
export function trailHead(reader: Reader): TrailHead {
  return reader.trailHead()
}
