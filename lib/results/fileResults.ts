import { currentVersion, isCorrection } from './currentVersion.ts'
import type { IncomingResult } from './incomingResult.ts'
import type { LabResult, Measured } from './labResult.ts'
import { measuredText, resultContent } from './resultContent.ts'

/** What becomes of a result that could be read. `version` is the new version, or for `known` the stored one it repeats. */
export type Filing =
  | { readonly outcome: 'filed' | 'known' | 'corrected'; readonly version: number }
  | { readonly outcome: 'held'; readonly reason: 'conflicting-value' | 'correction-before-original'; readonly sentence: string }

type Stored = Omit<LabResult, 'provenance' | 'id'>

function shown(value: Measured, valueText: string, unitText: string): string {
  return value.kind === 'number' ? `${valueText} ${unitText}`.trim() : `"${valueText}"`
}

function conflict(incoming: IncomingResult, current: Stored): Filing {
  const sample = incoming.accession === null ? `the sample of ${incoming.collected.text}` : `accession ${incoming.accession}`
  const { valueText, unitText } = incoming.provenance
  const differs =
    measuredText(incoming.value) === measuredText(current.value)
      ? 'the same value with another collection time, method or reference limit'
      : `another value, ${shown(incoming.value, valueText, unitText)},`
  return {
    outcome: 'held',
    reason: 'conflicting-value',
    sentence: `For ${sample} and code ${incoming.code} a ${current.status} result is stored; ${differs} needs the status corrected, or a person's decision.`,
  }
}

const reportOrder = (of: Pick<LabResult, 'reportedAt'>): number | null => of.reportedAt?.order ?? null

function isReportedAfter(a: Pick<LabResult, 'reportedAt'>, b: Pick<LabResult, 'reportedAt'>): boolean {
  const [first, second] = [reportOrder(a), reportOrder(b)]
  return first !== null && second !== null && first > second
}

/** The stored version this is a repetition of; null where it says something new. A correction back to an earlier value, reported later, is new. */
function repeated(incoming: IncomingResult, versions: readonly Stored[], current: Stored): Stored | null {
  const content = resultContent(incoming)
  if (content === resultContent(current)) return current
  if (isCorrection(incoming.status) && isReportedAfter(incoming, current)) return null
  return versions.find((version) => resultContent(version) === content) ?? null
}

/** The final report a preliminary one came before, with the same value: the one that counts, or one that was withdrawn or corrected since. */
function finalOf(incoming: IncomingResult, versions: readonly Stored[], current: Stored): Stored | null {
  if (incoming.status !== 'preliminary') return null
  const among = isReportedAfter(incoming, current) ? [current] : versions
  return among.find(({ status, value }) => status === 'final' && measuredText(value) === measuredText(incoming.value)) ?? null
}

/** A report that carries no correction status joins an existing result only where it cannot be the newer word on it. */
function maySupplement(incoming: IncomingResult, current: Stored): boolean {
  if (current.status === 'preliminary') return true
  if (incoming.status === 'preliminary') return !isReportedAfter(incoming, current)
  return isCorrection(current.status) && isReportedAfter(current, incoming)
}

/**
 * Decides what becomes of a result, given every stored version of the same identity (`resultIdentity`), in any order.
 * The same content again is known, also when it repeats an original that was corrected since. A correction is a new version; before its original it
 * is held, but a cancellation is filed, for there may never be an original. A final replaces a preliminary. A preliminary or an original that
 * arrives after what replaced it becomes a version that does not count (`currentVersion`). Any other difference is held.
 */
export function decideFiling(incoming: IncomingResult, versions: readonly Stored[]): Filing {
  const current = currentVersion(versions)
  if (current === null) {
    if (!isCorrection(incoming.status) || incoming.status === 'cancelled') return { outcome: 'filed', version: 1 }
    const sentence = `The row is ${incoming.status === 'corrected' ? 'a correction' : 'a withdrawal (entered in error)'}, but no earlier report of code ${incoming.code} for ${incoming.accession === null ? `the sample of ${incoming.collected.text}` : `accession ${incoming.accession}`} is stored; it waits for its original.`
    return { outcome: 'held', reason: 'correction-before-original', sentence }
  }
  const same = repeated(incoming, versions, current)
  if (same !== null) return { outcome: 'known', version: same.version }
  const final = finalOf(incoming, versions, current)
  if (final !== null) return { outcome: 'known', version: final.version }
  if (isCorrection(incoming.status) || maySupplement(incoming, current)) {
    return { outcome: 'corrected', version: Math.max(...versions.map(({ version }) => version)) + 1 }
  }
  return conflict(incoming, current)
}
