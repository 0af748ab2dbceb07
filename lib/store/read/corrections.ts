import { type Correction, currentVersion, exclusionsOf, joinedCorrections, resultContent } from '../../results/index.ts'
import type { Connection } from '../connection.ts'
import { decisionsOf } from './decisions.ts'
import { hasMerges, joinedIds, keptIdOf } from './merges.ts'
import { patientResultVersions, resultVersions, type StoredVersion } from './results.ts'

/** One result of a patient of which another version counts now. `patientId` is the record that is kept, where records are joined. */
export interface StoredCorrection extends Correction {
  readonly patientId: string
}

/** What happened since a moment: versions with a higher number than `resultId` were stored, and those of `taken` were taken back. */
interface Since {
  readonly resultId: number
  readonly taken: ReadonlySet<number>
}

// What counted then, and what counts now.
const then = (versions: readonly StoredVersion[], { resultId, taken }: Since) =>
  versions.filter(({ result: { id }, takenBack }) => id <= resultId && (!takenBack || taken.has(id)))
const still = (versions: readonly StoredVersion[]) => versions.filter(({ takenBack }) => !takenBack)

/** Nothing counts in place of a version that was taken back alone: then it stands for both. */
function ofOne(versions: readonly StoredVersion[], since: Since): StoredCorrection[] {
  const [before, now] = [then(versions, since), still(versions)]
  const [replaced, counts] = [currentVersion(before.map(({ result }) => result)), currentVersion(now.map(({ result }) => result))]
  const patientId = versions[0]?.patientId
  if (patientId === undefined || replaced === null || replaced.id === counts?.id) return []
  const by = counts ?? replaced
  return by.id < replaced.id && resultContent(by) === resultContent(replaced) ? [] : [{ patientId, replaced, by }]
}

/** A report for one of several joined records may take the place of one that came for another. */
function ofJoined(connection: Connection, keptId: string, since: Since): StoredCorrection[] {
  const ids = [keptId, ...joinedIds(connection, keptId)]
  const versions = ids.flatMap((id) => patientResultVersions(connection, id))
  const excluded = exclusionsOf(ids.flatMap((id) => decisionsOf(connection, id)))
  const corrections = joinedCorrections(then(versions, since), still(versions), (id) => excluded.has(id))
  return corrections.map((correction) => ({ ...correction, patientId: keptId }))
}

// A result that is new since then has no earlier version: nobody could have seen what a correction beside it took the place of. NOT INDEXED: the few rows
// after a number are found by it, where the index of identities would be read from end to end. Both ends are said for the same reason: a server that does not
// know the number takes a third of all rows to lie beyond one end, and few to lie between two.
const SINCE = `id > ? AND id < ${Number.MAX_SAFE_INTEGER}`
const AGAIN = `SELECT DISTINCT identity, patient_id AS patientId FROM result NOT INDEXED WHERE ${SINCE} AND version > 1
  AND EXISTS (SELECT 1 FROM result AS earlier WHERE earlier.identity = result.identity AND earlier.patient_id = result.patient_id AND earlier.id <= ?)
  ORDER BY identity`
const NEW = `SELECT DISTINCT patient_id AS patientId FROM result NOT INDEXED WHERE ${SINCE}`
const OF_VERSION = 'SELECT identity, patient_id AS patientId FROM result WHERE id = ?'

interface Changed {
  readonly identity: string
  readonly patientId: string
}

/**
 * Of every result that was stored before version `resultId` was and got another one since, or lost one of `taken`: which counted then, which counts now;
 * none where it is the same one. Where nothing counts in its place, both are the version that was taken back.
 */
export function correctionsSince(connection: Connection, resultId: number, taken: ReadonlySet<number>): StoredCorrection[] {
  const { statement } = connection
  const since = { resultId, taken }
  const lost = [...taken].flatMap((id) => statement<Changed>(OF_VERSION).get(id) ?? [])
  const again = [...statement<Changed>(AGAIN).all(resultId, resultId), ...lost]
  const joined = new Set<string>()
  if (hasMerges(connection)) {
    for (const { patientId } of [...statement<Pick<Changed, 'patientId'>>(NEW).all(resultId), ...lost]) {
      const keptId = keptIdOf(connection, patientId)
      if (joinedIds(connection, keptId).length > 0) joined.add(keptId)
    }
  }
  const alone = again.filter(({ patientId }) => !joined.has(keptIdOf(connection, patientId))).map(({ identity }) => identity)
  const own = [...new Set(alone)].flatMap((identity) => ofOne(resultVersions(connection, identity), since))
  return [...own, ...[...joined].flatMap((keptId) => ofJoined(connection, keptId, since))]
}
