import { isWithdrawn, type LabResult } from '../../../results/index.ts'
import { countedOnceStored, type NewRepeat, type NewResult, type StoredVersion } from '../../../store/index.ts'
import type { ResultShelf } from '../fileRow.ts'

/** A version that is to be stored, and whether it counts from then on. */
export interface NewVersion {
  readonly version: NewResult
  readonly counts: boolean
}

/** Where the results of one patient are filed that are not stored yet: it answers as the database will, and keeps in memory what it is told. */
export interface Shelf extends ResultShelf {
  /** What it was told to store, in the order of the rows. */
  readonly versions: readonly NewVersion[]
  /** Which rows only repeated a version, also one of these. */
  readonly repeats: readonly NewRepeat[]
  /** Those that count, as an evaluation reads them, in the order of their numbers. */
  readonly counted: () => readonly LabResult[]
  /** Whether one of them is of a result that was stored before. */
  readonly hasLater: () => boolean
}

interface Put {
  readonly id: number
  readonly version: NewResult
  counts: boolean
}

/**
 * An empty shelf in front of what is stored of a patient: of every result that will be filed the versions, by identity. The first version it is told to store
 * gets the number `firstId`, as it will in the database.
 */
export function shelfBefore(stored: ReadonlyMap<string, readonly StoredVersion[]>, patientId: string, firstId: number): Shelf {
  const versions: NewVersion[] = []
  const repeated: NewRepeat[] = []
  const put: Put[] = []
  const byIdentity = new Map<string, Put[]>()
  let hasLater = false
  return {
    versions,
    repeats: repeated,
    versionsOf(identity) {
      const before = stored.get(identity) ?? []
      const here = (byIdentity.get(identity) ?? []).map(({ id, version: { result, provenance }, counts }) => {
        return { patientId, identity, current: counts, takenBack: false, result: { ...result, id, provenance: { ...provenance, fileName: '' } } }
      })
      return [...before, ...here]
    },
    insertResultVersion(version, counts) {
      const { identity } = version
      const here = byIdentity.get(identity)
      if (here === undefined && version.result.version > 1) hasLater = true
      if (counts) for (const other of here ?? []) other.counts = false
      const one = { id: firstId + put.length, version, counts }
      put.push(one)
      versions.push({ version, counts })
      if (here === undefined) byIdentity.set(identity, [one])
      else here.push(one)
      return one.id
    },
    insertRepeats(_kind, _of, repeats) {
      repeated.push(...repeats)
    },
    counted: () => put.flatMap(({ id, version, counts }) => (counts && !isWithdrawn(version.result) ? [countedOnceStored(version, id)] : [])),
    hasLater: () => hasLater,
  }
}
