import { analyteWords, type Correction, type FindingChange, isTakenBack, isWithdrawn, type LabResult, type ResultStatus } from '../results/index.ts'
import type { Finding } from './finding.ts'

const REPORTS: Readonly<Record<ResultStatus, string>> = {
  preliminary: 'preliminary report',
  final: 'final report',
  corrected: 'correction',
  cancelled: 'cancellation',
  'entered-in-error': 'withdrawal',
}

const REVOKED = 'revoked mapping'

/** What the report that took the place of another is called: "correction", "final report", "withdrawal". */
function reportWord(correction: Correction): string {
  return isTakenBack(correction) ? REVOKED : REPORTS[correction.by.status]
}

function received({ provenance: { valueText, unitText }, value }: LabResult): string {
  const text = `${valueText} ${unitText}`.trim()
  return text === '' && value.kind === 'none' ? value.reason : text
}

function now(replaced: LabResult, by: LabResult): string {
  if (by.id === replaced.id) return 'not counted now'
  if (by.status === 'cancelled') return 'cancelled now'
  if (isWithdrawn(by)) return 'withdrawn as entered in error now'
  return received(by) === received(replaced) ? 'now with another time, method or reference limit' : `${received(by)} now`
}

function before(replaced: LabResult): string {
  if (isWithdrawn(replaced)) return 'withdrawn before'
  return `${received(replaced)}${replaced.status === 'preliminary' ? ' (preliminary)' : ''} before`
}

/** Both values as received: "serum M-protein of 2026-11-03: 36.0 g/L before, 30.0 g/L now". Never why: no laboratory says. */
export function correctionText({ replaced, by }: Correction): string {
  const { analyte, collected } = replaced
  return `${analyteWords(analyte)} of ${collected.on}: ${before(replaced)}, ${now(replaced, by)}`
}

/** Several reports in one phrase: "a correction", "a withdrawal", "corrected reports" where they are of several kinds. */
export function reportsWord(corrections: readonly Correction[]): string {
  const [first, ...others] = [...new Set(corrections.map(reportWord))]
  if (others.length > 0 && corrections.some(isTakenBack)) return 'revoked mappings and corrected reports'
  return first === undefined || others.length > 0 ? 'corrected reports' : corrections.length > 1 ? `${first}s` : `a ${first}`
}

const DID: Readonly<Record<FindingChange['what'], string>> = { removed: 'Taken back by', created: 'Since', changed: 'Changed by' }

const WINDOW_WORDS: Readonly<Record<Finding['window'], string>> = {
  'same-day': 'the same day',
  'within-7-days': 'within 7 days',
  'within-30-days': 'within 30 days',
  'next-visit': 'at the next visit',
  'on-schedule': 'on schedule',
}

/** How the finding was told before, where that was otherwise in more than its values. */
function toldBefore({ what, before, since }: FindingChange): string {
  if (what !== 'changed' || before === null || since === null) return ''
  const [was, is] = [JSON.parse(before) as Finding, JSON.parse(since) as Finding]
  if (was.state === is.state && was.certainty === is.certainty && was.window === is.window) return ''
  return ` Before it was ${was.state}${was.certainty === 'possible' ? ', possible' : ''}, to be looked at ${WINDOW_WORDS[was.window]}.`
}

/** Which reports made, changed or took back a finding, with both values, in one or two sentences. */
export function changeSays(change: FindingChange): string {
  const { what, on, corrections } = change
  return `${DID[what]} ${reportsWord(corrections)} ${corrections.every(isTakenBack) ? 'of' : 'that came in on'} ${on}; ${corrections.map(correctionText).join('; ')}.${toldBefore(change)}`
}
