import { profileDifferences, profileExamples } from '../../intake/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { analyteAt, profileNow, readWishedProfile } from './readWishedProfile.ts'
import type { SourcePreview } from './views.ts'

/** What a profile that is not saved would change and make of some texts, and what is wrong with it. Changes nothing. */
export async function previewProfile(call: Call, given: unknown): Promise<Outcome<SourcePreview>> {
  const refused = await refusedUnlessMay(call, 'sources.write', 'source profile')
  if (refused !== null) return refused
  return { ok: true, value: previewOf(call, given) }
}

/** The same for whoever was asked already whether they may. */
export function previewOf(call: Call, given: unknown): SourcePreview {
  const { source = '', units = {} } = typeof given === 'object' && given !== null ? (given as { source?: unknown; units?: unknown }) : {}
  const codes = Object.keys(typeof units === 'object' && units !== null ? units : {}).map((code) => {
    return { code, analyte: analyteAt(call, String(source), code) }
  })
  const read = readWishedProfile(call, given)
  if (!read.ok) return { differences: [], examples: [], codes, problems: read.problems }
  const { profile } = read.value
  const differences = profileDifferences(profileNow(call, read.value.source).profile, profile)
  return { differences, examples: profileExamples(profile), codes, problems: [] }
}
