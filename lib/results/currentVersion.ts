import type { LabResult, ResultStatus } from './labResult.ts'

type Version = Pick<LabResult, 'status' | 'reportedAt' | 'version'>

const WEIGHT: Readonly<Record<ResultStatus, number>> = { preliminary: 0, final: 1, corrected: 2, cancelled: 2, 'entered-in-error': 2 }

/** True for a status that says: this replaces what was reported before. */
export function isCorrection(status: ResultStatus): boolean {
  return WEIGHT[status] === 2
}

/** Positive when `a` replaces `b`. */
function replaces(a: Version, b: Version): number {
  const byStatus = WEIGHT[a.status] - WEIGHT[b.status]
  if (byStatus !== 0) return byStatus
  const byReport = (a.reportedAt?.order ?? Number.NEGATIVE_INFINITY) - (b.reportedAt?.order ?? Number.NEGATIVE_INFINITY)
  return byReport > 0 || byReport < 0 ? byReport : a.version - b.version
}

/**
 * The version that counts: a correction before a final, a final before a preliminary; among equals the one reported last; among those without a
 * report time the one that arrived last. So the order of arrival decides only where the laboratory itself gives no order. Null for no versions.
 */
export function currentVersion<V extends Version>(versions: readonly V[]): V | null {
  return versions.reduce<V | null>((current, version) => (current === null || replaces(version, current) > 0 ? version : current), null)
}
