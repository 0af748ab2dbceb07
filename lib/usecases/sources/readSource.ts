import { may } from '../../access/index.ts'
import { profileDifferences, profileExamples, profileSayings, SAYS_NOTHING } from '../../intake/index.ts'
import type { StoredProfile } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { previewOf } from './previewProfile.ts'
import { profileNow } from './readWishedProfile.ts'
import type { ProfileVersionView, SourceView } from './views.ts'

const FILES_SHOWN = 10
const LONGEST_NAME = 100

/** Versions of one source, latest first, each with what it changed. */
function versionViews(versions: readonly StoredProfile[]): readonly ProfileVersionView[] {
  return versions.map(({ version, madeBy, madeAt, reason, profile }, at) => {
    const differences = profileDifferences(versions[at + 1]?.profile ?? SAYS_NOTHING, profile)
    return { version, madeBy, madeAt, reason, differences }
  })
}

/** One source: what its profile says and said, and what came from it. A name nobody used yet is a source of which nothing is known. */
export async function readSource(call: Call, name: string): Promise<Outcome<SourceView>> {
  const refused = await refusedUnlessMay(call, 'sources.read', 'source')
  if (refused !== null) return refused
  const source = name.trim()
  if (source === '' || source.length > LONGEST_NAME) {
    return { ok: false, kind: 'not-found', reason: `The name of a source has 1 to ${LONGEST_NAME} characters.` }
  }
  const { reader } = call.store
  const { role } = call.actor
  const allowed = (permission: 'sources.write' | 'sources.trust') => may(role === 'none' ? null : role, permission).allowed
  const value = reader.atOnce((): SourceView => {
    const { version, profile } = profileNow(call, source)
    const files = reader.filesOfSource(source, FILES_SHOWN).map(({ id, name: fileName, receivedAt, rows, held, refused: notStored }) => {
      return { fileId: id, fileName, receivedAt, rows, held, refused: notStored }
    })
    const file = { source, ...profile }
    return {
      source,
      version,
      says: profileSayings(profile),
      file,
      examples: profileExamples(profile),
      versions: versionViews(reader.allProfiles().filter((stored) => stored.source === source)),
      files,
      waiting: reader.sourceTraffic().find((one) => one.source === source)?.waiting ?? 0,
      unchanged: allowed('sources.write') ? previewOf(call, file) : null,
      mayTrust: allowed('sources.trust'),
    }
  })
  return { ok: true, value }
}
