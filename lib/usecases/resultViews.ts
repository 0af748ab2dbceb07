import { exclusionsOf, type History, type LabResult } from '../results/index.ts'
import type { ResultView } from './patientViews.ts'

/**
 * Every result that counts or was excluded, latest collected first; of those collected at one moment the one stored last. `replaced` are excluded
 * versions that a correction has replaced since: they stay visible.
 */
export function resultViews({ results, decisions }: History, replaced: readonly LabResult[]): ResultView[] {
  const exclusions = exclusionsOf(decisions)
  const inOrder = [...results, ...replaced].toSorted((a, b) => b.collected.order - a.collected.order || b.id - a.id)
  return inOrder.map(({ id, analyte, collected, laboratory, method, provenance, version, status }) => {
    const exclusion = exclusions.get(id)
    return {
      resultId: id,
      analyte,
      collectedOn: collected.on,
      received: `${provenance.valueText} ${provenance.unitText}`.trim(),
      laboratory,
      method,
      fileName: provenance.fileName,
      line: provenance.line,
      version,
      status,
      excluded: exclusion === undefined ? null : { by: exclusion.by, on: exclusion.on, reason: exclusion.text },
    }
  })
}
