import { withoutKnown } from '../../intake/index.ts'
import type { Call } from '../call.ts'
import type { FileReport } from '../views.ts'
import { seesPatients } from './seesPatients.ts'

/** The sentence of a row as the one who asks may read it: what is known of its patient is for those who may see patients. */
export function sentenceFor(call: Call, sentence: string): string {
  return seesPatients(call) ? sentence : withoutKnown(sentence)
}

/** A report with the sentences of its rows so. */
export function reportFor(call: Call, report: FileReport): FileReport {
  if (seesPatients(call)) return report
  return { ...report, problems: report.problems.map((row) => ({ ...row, sentence: withoutKnown(row.sentence) })) }
}
