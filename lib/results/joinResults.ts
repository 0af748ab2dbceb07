import { currentVersion, isCorrection } from './currentVersion.ts'
import { decideFiling } from './fileResults.ts'
import type { Correction } from './findingChange.ts'
import type { IncomingResult } from './incomingResult.ts'
import { isWithdrawn, type LabResult } from './labResult.ts'
import { resultContent, resultIdentity } from './resultContent.ts'

/** One stored version of a result, and the record it stands in. */
export interface ArrivedResult {
  readonly patientId: string
  readonly result: LabResult
}

export interface JoinedResults {
  /** One version a result, those withdrawn left out, oldest first. */
  readonly results: readonly LabResult[]
  /** Two reports of one sample that do not agree, one from each record: `counts` is the one that counts. */
  readonly disagreeing: readonly { readonly counts: LabResult; readonly other: LabResult }[]
}

// Without its patient a result of two records has one identity.
const incoming = (result: LabResult): IncomingResult => ({ ...result, patientId: '' })

const identityOf = ([first]: readonly ArrivedResult[]): string => (first === undefined ? '' : resultIdentity(incoming(first.result)))

function bySample(arrived: readonly ArrivedResult[]): ArrivedResult[][] {
  const samples = new Map<string, ArrivedResult[]>()
  for (const one of arrived.toSorted((a, b) => a.result.id - b.result.id)) {
    const identity = resultIdentity(incoming(one.result))
    const others = samples.get(identity)
    if (others === undefined) samples.set(identity, [one])
    else others.push(one)
  }
  return [...samples.values()]
}

/**
 * The versions of one result in the order of their arrival, as if all had come for one record: what repeats a version of the other record is none of its
 * own. Of repetitions the excluded one stands for all, so that a value taken out in one record does not come back through the other.
 */
function asOne(arrived: readonly ArrivedResult[], isExcluded: (id: number) => boolean): { versions: LabResult[]; disagree: boolean } {
  const versions: LabResult[] = []
  const told = new Set<string>()
  let disagree = false
  for (const { patientId, result } of arrived) {
    const content = resultContent(result)
    const filing = decideFiling(incoming(result), versions)
    const ownContent = JSON.stringify([patientId, content])
    // A version its own record holds twice was decided there, by the laboratory's order or by a person, and stays one.
    if (filing.outcome === 'known' && !told.has(ownContent)) {
      const at = versions.findIndex(({ version }) => version === filing.version)
      const same = versions[at]
      if (same !== undefined && isExcluded(result.id) && !isExcluded(same.id) && resultContent(same) === content)
        versions[at] = { ...result, version: same.version }
    } else versions.push({ ...result, version: versions.length + 1 })
    if (filing.outcome === 'held' && filing.reason === 'conflicting-value') disagree = true
    told.add(ownContent)
  }
  return { versions, disagree }
}

/**
 * The results of several records read as one; `arrived` are all stored versions of all of them. A result that came for two records is one result, and
 * `currentVersion` chooses among the versions of both. Arrival is the order of the numbers the database gave.
 */
export function joinResults(arrived: readonly ArrivedResult[], isExcluded: (id: number) => boolean): JoinedResults {
  const results: LabResult[] = []
  const disagreeing: { counts: LabResult; other: LabResult }[] = []
  for (const sample of bySample(arrived)) {
    const { versions, disagree } = asOne(sample, isExcluded)
    const counts = currentVersion(versions)
    if (counts === null || isWithdrawn(counts)) continue
    results.push(counts)
    const other = versions.findLast(({ id, status }) => id !== counts.id && status === counts.status)
    if (disagree && !isCorrection(counts.status) && other !== undefined) disagreeing.push({ counts, other })
  }
  return { results: results.toSorted((a, b) => a.collected.order - b.collected.order || a.id - b.id), disagreeing }
}

/**
 * Of every result of several records read as one: which version counted when only the reports of `before` had come, and which counts with those of `now`.
 * None where it is the same one, or tells the same; where nothing counts any more, both are the version that counted.
 */
export function joinedCorrections(
  before: readonly ArrivedResult[],
  now: readonly ArrivedResult[],
  isExcluded: (id: number) => boolean,
): Correction[] {
  const samples = new Map(bySample(now).map((sample) => [identityOf(sample), sample]))
  return bySample(before).flatMap((sample) => {
    const replaced = currentVersion(asOne(sample, isExcluded).versions)
    const by = currentVersion(asOne(samples.get(identityOf(sample)) ?? [], isExcluded).versions) ?? replaced
    if (replaced === null || by === null) return []
    const isGone = !samples.has(identityOf(sample))
    return isGone || (by.id !== replaced.id && resultContent(by) !== resultContent(replaced)) ? [{ replaced, by }] : []
  })
}
