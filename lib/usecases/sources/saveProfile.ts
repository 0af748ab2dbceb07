import { createHash } from 'node:crypto'
import { type ProfileDifference, profileDifferences, type SourceProfile } from '../../intake/index.ts'
import { profileText } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { typedText } from '../decisions/typedText.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { profileNow, readWishedProfile, refusedProfile } from './readWishedProfile.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

/** A profile as somebody wrote it, why, and the version it was drawn from (null: there was none); not said where it is to hold whatever there was. */
export interface ProfileWish {
  readonly given: unknown
  readonly reason: string
  readonly basedOn?: number | null
}

/** What was saved. */
export interface SavedProfile {
  readonly source: string
  readonly version: number
  readonly differences: readonly ProfileDifference[]
}

function sha256(profile: SourceProfile): string {
  return createHash('sha256').update(profileText(profile)).digest('hex')
}

class Meanwhile extends Error {}

const MEANWHILE = 'Somebody saved another version meanwhile. Open the source again and begin from it.'
const invalid = (reason: string): Refusal => ({ ok: false, kind: 'invalid', reason })

/**
 * Saves a new version of what is known of a source; the ones before are kept. Rows are read by it from now on, rows filed before keep what they were read
 * as. Whether a source adds patients is changed by those alone who may trust it.
 */
export async function saveProfile(call: Call, { given, reason, basedOn }: ProfileWish): Promise<Outcome<SavedProfile>> {
  const refused = await refusedUnlessMay(call, 'sources.write', 'source profile')
  if (refused !== null) return refused
  const typed = typedText(reason, 'The reason')
  const read = readWishedProfile(call, given)
  if (!read.ok || 'reason' in typed) {
    const why = 'reason' in typed ? [{ field: 'reason', says: typed.reason.replace('The reason ', '').replace(/\.$/, '') }] : []
    return refusedProfile([...(read.ok ? [] : read.problems), ...why])
  }
  const { source, profile } = read.value
  const now = profileNow(call, source)
  if (basedOn !== undefined && basedOn !== now.version) return invalid(MEANWHILE)
  if (profile.addsPatients !== now.profile.addsPatients) {
    const untrusted = await refusedUnlessMay(call, 'sources.trust', 'source profile')
    if (untrusted !== null) return { ...untrusted, reason: `Whether a source adds patients is an administrator's to change. ${untrusted.reason}` }
  }
  const differences = profileDifferences(now.profile, profile)
  if (differences.length === 0)
    return invalid(`Nothing is changed: ${now.version === null ? 'it says nothing' : `version ${now.version} says the same`}.`)
  try {
    const version = await call.store.record(call, (tx) => {
      // Judged against what held a moment ago: what holds under the lock must be the same.
      if ((tx.profileOfSource(source)?.version ?? null) !== now.version) throw new Meanwhile()
      const made = tx.insertProfile({ source, profile, reason: typed.text, madeBy: call.actor.name, madeAt: call.now })
      const hashes = { beforeSha256: now.version === null ? null : sha256(now.profile), afterSha256: sha256(profile) }
      return { value: made, events: [{ action: 'source-profile-saved', source, version: made, ...hashes }] }
    })
    return { ok: true, value: { source, version, differences } }
  } catch (error) {
    if (error instanceof Meanwhile) return invalid(MEANWHILE)
    throw error
  }
}
