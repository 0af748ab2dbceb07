import type { Decision, FindingChange, LabResult } from '../results/index.ts'
import { changeSays } from '../rules/index.ts'
import type { CorrectionView, ReportView } from './patientViews.ts'

function reportView({ provenance: { fileName, line, valueText, unitText }, status, laboratory }: LabResult): ReportView {
  return { received: `${valueText} ${unitText}`.trim(), status, laboratory, fileName, line }
}

const KIND: Partial<Record<Decision['kind'], CorrectionView['decided'][number]['kind']>> = {
  review: 'reviewed',
  handover: 'handed-over',
  attribution: 'attributed',
  exclusion: 'excluded',
}

/** Each person once for each kind of decision, with the last of it. */
function decidedOn(decisions: readonly Decision[]): CorrectionView['decided'] {
  const last = new Map<string, CorrectionView['decided'][number]>()
  for (const { kind, by, on } of decisions) {
    const did = KIND[kind]
    if (did !== undefined) last.set(`${did} ${by}`, { kind: did, by, on })
  }
  return [...last.values()]
}

/** What corrected results did to a finding: both reports of each with file and row, and who had decided on it. */
export function correctionView(change: FindingChange): CorrectionView {
  const { id, what, on, corrections, decisions } = change
  return {
    id,
    what,
    on,
    says: changeSays(change),
    reports: corrections.map(({ replaced, by }) => {
      const { analyte, collected } = replaced
      return { analyte, collectedOn: collected.on, before: reportView(replaced), now: by.id === replaced.id ? null : reportView(by) }
    }),
    decided: decidedOn(decisions),
  }
}
