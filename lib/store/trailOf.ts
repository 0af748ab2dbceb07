import type { TrailHead } from '../trail/index.ts'
import type { TrailCheck } from './read/trail.ts'
import type { Reader } from './reader.ts'

/** Checks the whole log against its chain. */
export function verifyTrail(reader: Reader): TrailCheck {
  return reader.verifyTrail()
}

/** The last row's number and hash; kept elsewhere, it shows a tail that was cut off. */
export function trailHead(reader: Reader): TrailHead {
  return reader.trailHead()
}
