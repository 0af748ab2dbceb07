import {
  asSourceMeans,
  type Interpreted,
  interpretResult,
  NOTHING_KNOWN,
  type RawRow,
  type SourceKnowledge,
  type SourceProfile,
} from '../../../lib/intake/index.ts'
import type { IncomingResult } from '../../../lib/results/index.ts'
import { patient, resultRow, TODAY } from '../rows.ts'

/** A profile that says nothing, with changes. */
export function profile(changes: Partial<SourceProfile> = {}): SourceProfile {
  return { units: {}, decimalSign: 'point', dayOrder: 'year-first', timeZone: null, addsPatients: false, ...changes }
}

/** All that is known of a source with this profile. */
export function known(changes: Partial<SourceProfile> = {}, mappings: SourceKnowledge['mappings'] = []): SourceKnowledge {
  return { ...NOTHING_KNOWN, version: '1:', profile: profile(changes), mappings }
}

/** What P1 gets from a row of that source. */
export function readOf(raw: RawRow, source: SourceKnowledge): Interpreted<IncomingResult> {
  return interpretResult(asSourceMeans(raw, source).raw, patient(), TODAY)
}

/** The result a row of P1 gives with these changes. Throws the sentence where it gives none. */
export function taken(changes: Readonly<Record<string, string>>, source: SourceKnowledge): IncomingResult {
  const read = readOf(resultRow(changes), source)
  if (read.outcome !== 'take') throw new Error(read.sentence)
  return read.value
}

/** `take`, or the reason why not. */
export function fateOf(changes: Readonly<Record<string, string>>, source: SourceKnowledge): string {
  const read = readOf(resultRow(changes), source)
  return read.outcome === 'take' ? 'take' : read.reason
}
