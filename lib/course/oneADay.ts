import { isWithdrawn, type LabResult } from '../results/index.ts'

const textOrder = (a: string | null, b: string | null): number => ((a ?? '') < (b ?? '') ? -1 : (a ?? '') > (b ?? '') ? 1 : 0)

/**
 * Which of two results of one analyte on one day counts: the later collection moment, then the higher accession, the later version, and
 * then the text as received, so that the order of arrival never decides. Positive when `a` counts.
 */
export function outranks(a: LabResult, b: LabResult): number {
  return (
    a.collected.order - b.collected.order ||
    textOrder(a.accession, b.accession) ||
    a.version - b.version ||
    textOrder(a.provenance.valueText, b.provenance.valueText) ||
    textOrder(a.provenance.unitText, b.provenance.unitText) ||
    textOrder(a.laboratory, b.laboratory) ||
    textOrder(a.method, b.method) ||
    b.id - a.id
  )
}

/** True for a result that can be a sample: not withdrawn, and with a value of some kind. */
export function isSample(result: LabResult): boolean {
  return result.value.kind !== 'none' && !isWithdrawn(result)
}

/** The result that counts for each key. */
export function outrankingBy(results: Iterable<LabResult>, keyOf: (result: LabResult) => string): Map<string, LabResult> {
  const best = new Map<string, LabResult>()
  for (const result of results) {
    const key = keyOf(result)
    const rival = best.get(key)
    if (rival === undefined || outranks(result, rival) > 0) best.set(key, result)
  }
  return best
}
