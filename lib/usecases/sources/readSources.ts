import { profileDifferences, profileSayings, SAYS_NOTHING, type SourceProfile } from '../../intake/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { SourceInList } from './views.ts'

/** What a profile says beyond nothing, a few words each. */
function setIn(profile: SourceProfile): readonly string[] {
  const fields = new Set(profileDifferences(SAYS_NOTHING, profile).map(({ field }) => field))
  return profileSayings(profile).flatMap(({ field, asks, says }) => (fields.has(field) ? [`${asks}: ${says}`] : []))
}

/** Every source that a file, a profile or a mapping names, with what is set of it. */
export async function readSources(call: Call): Promise<Outcome<readonly SourceInList[]>> {
  const refused = await refusedUnlessMay(call, 'sources.read', 'sources')
  if (refused !== null) return refused
  const { reader } = call.store
  const { names, traffic, profiles } = reader.atOnce(() => ({
    names: reader.sourceNames(),
    traffic: new Map(reader.sourceTraffic().map((one) => [one.source, one])),
    // The last version of a source comes first; the map keeps what is set last.
    profiles: new Map(
      reader
        .allProfiles()
        .toReversed()
        .map((stored) => [stored.source, stored]),
    ),
  }))
  const value = names.map((source): SourceInList => {
    const stored = profiles.get(source)
    const profile = stored === undefined ? null : { version: stored.version, since: stored.madeAt, says: setIn(stored.profile) }
    const { files = 0, rows = 0, held = 0, waiting = 0, lastReceivedAt = null } = traffic.get(source) ?? {}
    return { source, profile, files, rows, held, waiting, lastReceivedAt }
  })
  return { ok: true, value }
}
