import type { JsonObject } from '../json/json.ts'

/** One entry of a Bundle, or one line of NDJSON. */
export interface FhirEntry {
  /** In a Bundle: which entry, from 1; else the line of the file. */
  readonly line: number
  /** The resource as received; of an entry without one all of it. */
  readonly source: string
  readonly fullUrl: string
  /** Null where there is none, with why. */
  readonly resource: JsonObject | null
  readonly why: string
}
