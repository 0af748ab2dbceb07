import { analyteOfCode, type ReadProfile, readProfile, SAYS_NOTHING, type SourceProfile } from '../../intake/index.ts'
import type { Analyte } from '../../results/index.ts'
import type { Call, Outcome } from '../call.ts'

/** What a code of a source stands for: by what a person decided about it, else as the LOINC code it is. */
export function analyteAt(call: Call, source: string, code: string): Analyte | null {
  const { mappings } = call.store.reader.sourceKnowledge(source)
  const mapping = mappings.find(({ kind, received }) => kind === 'code' && received === code)
  return analyteOfCode(mapping?.meaning ?? code)
}

/** Reads a profile as somebody wrote it, against what its source's codes stand for. */
export function readWishedProfile(call: Call, given: unknown): ReadProfile {
  return readProfile(given, (code, source) => analyteAt(call, source, code))
}

/** The profile that holds of a source; one that says nothing where nobody wrote one. */
export function profileNow(call: Call, source: string): { readonly version: number | null; readonly profile: SourceProfile } {
  const stored = call.store.reader.profileOfSource(source)
  return stored === null ? { version: null, profile: SAYS_NOTHING } : { version: stored.version, profile: stored.profile }
}

/** A refusal that names every field at once. */
export function refusedProfile(problems: readonly { readonly field: string; readonly says: string }[]): Extract<Outcome<never>, { ok: false }> {
  const said = problems.map(({ field, says }) => `${field} ${says}.`)
  return { ok: false, kind: 'invalid', reason: `Nothing was saved. ${said.join(' ')}`, fields: problems }
}
