import type { LabResult } from '../../results/index.ts'
import type { Call, Outcome } from '../call.ts'
import { recordReview } from '../decisions/recordReview.ts'
import { acceptFiles } from '../intake/acceptFiles.ts'
import type { StandingAnswer } from '../list/standingAnswer.ts'
import { openPatient } from '../patient/openPatient.ts'
import type { FindingView, PatientView } from '../patientViews.ts'
import { DEMONSTRATION_NAMES } from './demonstrationNames.ts'

const NOTE = 'Rang the patient about the value; a second sample is taken next week.'
const COLUMNS = ['patient_id', 'collected_at', 'code', 'value', 'unit', 'status', 'accession', 'laboratory', 'method', 'reported_at'] as const

interface Slip {
  readonly finding: FindingView
  readonly resultId: number
  /** The sample before, which did not show it. */
  readonly earlierId: number
}

/** A finding that the last sample alone shows, so that a correction of it could take the finding back. */
function slipOf({ findings, results }: PatientView): Slip | null {
  for (const finding of findings.filter(({ state, answered }) => state === 'unconfirmed' && answered === null)) {
    const shown = finding.evidence.find(({ role }) => role === 'current')
    const own = results.filter(({ analyte, excluded }) => analyte === shown?.analyte && excluded === null)
    const current = own.find(({ collectedOn }) => collectedOn === shown?.collectedOn)
    const earlier = own.find(
      ({ collectedOn, laboratory }) => current !== undefined && collectedOn < current.collectedOn && laboratory === current.laboratory,
    )
    if (current !== undefined && earlier !== undefined) return { finding, resultId: current.resultId, earlierId: earlier.resultId }
  }
  return null
}

/** The row in which the laboratory says, now, that the value is still that of the sample before. */
function correctedRow(patientId: string, current: LabResult, { provenance }: LabResult, now: string): readonly string[] {
  const { collected, code, accession, laboratory, method } = current
  return [
    patientId,
    collected.text,
    code,
    provenance.valueText,
    provenance.unitText,
    'corrected',
    accession ?? '',
    laboratory ?? '',
    method ?? '',
    now,
  ]
}

const line = (cells: readonly string[]): string => `${cells.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',')}\r\n`

/**
 * A finding the demonstration's nurse reviewed, and the laboratory's correction that takes it back: one patient, through the use cases like a real one. Of
 * those in `others` nobody is chosen. Answers how many patients: none where the cohort gives no occasion.
 */
export async function inventCorrection(call: Call, others: ReadonlySet<string>): Promise<Outcome<number>> {
  const { reader } = call.store
  const nurse: Call = { ...call, actor: { ...call.actor, name: DEMONSTRATION_NAMES.navigator, role: 'navigator' } }
  for (const { patientId, answer } of reader.standingsInOrder()) {
    const { findings } = JSON.parse(answer) as StandingAnswer
    if (others.has(patientId) || findings.every(({ state }) => state !== 'unconfirmed')) continue
    const opened = await openPatient(nurse, patientId)
    if (!opened.ok) return opened
    const found = slipOf(opened.value)
    const [current, before] = [reader.result(found?.resultId ?? 0), reader.result(found?.earlierId ?? 0)]
    if (found === null || current === null || before === null) continue
    const { rule, key } = found.finding
    const reviewed = await recordReview(nurse, { patientId, rule, key, note: NOTE, bringBackOn: null })
    if (!reviewed.ok) return reviewed
    const text = line(COLUMNS) + line(correctedRow(patientId, current.result, before.result, call.now))
    const file = { name: 'corrections.csv', bytes: new TextEncoder().encode(text) }
    const accepted = await acceptFiles(call, [file], { source: 'invented cohort', dryRun: false })
    return accepted.ok ? { ok: true, value: 1 } : accepted
  }
  return { ok: true, value: 0 }
}
