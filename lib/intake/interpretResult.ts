import {
  type Analyte,
  type IncomingResult,
  type Measured,
  type Patient,
  RESULT_STATUSES,
  type ReferenceLimit,
  type ResultStatus,
} from '../results/index.ts'
import type { Day } from '../time/index.ts'
import { momentIn } from './dateText.ts'
import { lifetimeProblem } from './lifetime.ts'
import { analyteOfCode, whyNeverMapped } from './loinc.ts'
import { readMeasured, readUnit } from './measured.ts'
import { readNumber } from './numberText.ts'
import type { Interpreted, Problem } from './reason.ts'
import { remembered } from './remembered.ts'
import { field, freeText, isProblem, patientIdOf, type RawRow, rowProblem } from './row.ts'
import { otherPerson } from './samePerson.ts'
import { problem } from './sentences.ts'
import { unclearProblem } from './unclear.ts'

function statusOf(raw: RawRow): ResultStatus | Problem {
  const text = field(raw, 'status')
  if (text === '') return 'final'
  return RESULT_STATUSES.find((status) => status === text) ?? problem('bad-status', { column: 'status', text, detail: RESULT_STATUSES.join(', ') })
}

// A withdrawal must never fail on the very value it takes back.
function measuredOf(raw: RawRow, analyte: Analyte, status: ResultStatus): Measured | Problem {
  const text = field(raw, 'value')
  const absent = text === '' ? field(raw, 'absent_reason') : ''
  if (status === 'cancelled') return { kind: 'none', reason: text || absent || 'cancelled' }
  if (absent !== '') return { kind: 'none', reason: absent }
  const unread = field(raw, 'value_kind')
  const read = unread === '' ? readMeasured(analyte, text, field(raw, 'unit')) : problem('kind-not-read', { column: 'value', text: unread })
  return isProblem(read) && status === 'entered-in-error' ? { kind: 'none', reason: text || unread } : read
}

type LimitColumn = 'reference_low' | 'reference_high'

function readLimit(column: LimitColumn, text: string, unitText: string, analyte: Analyte): ReferenceLimit | Problem {
  const read = readNumber(column, text)
  if (read === null || isProblem(read) || read.comparator !== null || read.value.lt(0)) return problem('limit-unreadable', { column, text })
  const unit = readUnit(unitText, analyte)
  return isProblem(unit) ? unit : { printed: read.value, kept: read.value.times(unit.factor) }
}

const limitsBefore = {
  reference_low: remembered((text, unit, analyte) => readLimit('reference_low', text, unit, analyte as Analyte)),
  reference_high: remembered((text, unit, analyte) => readLimit('reference_high', text, unit, analyte as Analyte)),
} as const satisfies Readonly<Record<LimitColumn, unknown>>

function limitOf(raw: RawRow, column: LimitColumn, analyte: Analyte): ReferenceLimit | null | Problem {
  const text = field(raw, column)
  return text === '' ? null : limitsBefore[column](text, field(raw, 'unit'), analyte)
}

interface Limits {
  readonly referenceLow: ReferenceLimit | null
  readonly referenceHigh: ReferenceLimit | null
}

function limitsOf(raw: RawRow, analyte: Analyte, value: Measured): Limits | Problem {
  const [referenceLow, referenceHigh] = [limitOf(raw, 'reference_low', analyte), limitOf(raw, 'reference_high', analyte)]
  const bad = isProblem(referenceLow) ? referenceLow : isProblem(referenceHigh) ? referenceHigh : null
  if (value.kind === 'none')
    return { referenceLow: isProblem(referenceLow) ? null : referenceLow, referenceHigh: isProblem(referenceHigh) ? null : referenceHigh }
  if (bad !== null || isProblem(referenceLow) || isProblem(referenceHigh)) return bad as Problem
  if (referenceLow !== null && referenceHigh !== null && referenceLow.printed.gt(referenceHigh.printed)) {
    const detail = 'an upper limit that is not below the lower limit'
    return problem('limit-unreadable', { column: 'reference_high', text: field(raw, 'reference_high'), detail })
  }
  return { referenceLow, referenceHigh }
}

/** A problem as the answer about a row; a held one goes with the day it speaks of. */
function failed(found: Problem, on: Day | null): Interpreted<IncomingResult> {
  return found.outcome === 'held' ? { ...found, on } : found
}

/**
 * Reads a row of results for a patient (null: unknown). What no row may be is refused before anything is held; of several reasons to hold, the first is
 * given: what its reader found unclear, patient, birth date, sex, code, value, unit, range, limits, then the day. Empty value: none, reason "empty".
 */
export function interpretResult(raw: RawRow, patient: Patient | null, today: Day): Interpreted<IncomingResult> {
  const collected = momentIn(raw, 'collected_at')
  const on = isProblem(collected) || collected === null ? null : collected.on
  const timeKind = field(raw, 'collected_kind')
  const unreadable = rowProblem(raw, timeKind === '' ? ['patient_id', 'collected_at', 'code'] : ['patient_id', 'code'])
  if (unreadable !== null) return failed(unreadable, on)
  if (timeKind !== '') return failed(problem('kind-not-read', { column: 'collected_at', text: timeKind }), on)
  if (isProblem(collected)) return failed(collected, on)
  if (collected === null) return failed(problem('missing-field', { column: 'collected_at', text: '' }), on)
  const reportedAt = momentIn(raw, 'reported_at')
  if (isProblem(reportedAt)) return failed(reportedAt, on)
  const status = statusOf(raw)
  if (isProblem(status)) return failed(status, on)
  const patientId = patientIdOf(raw)
  const code = field(raw, 'code')
  const analyte = analyteOfCode(code)
  const value = analyte === null ? null : measuredOf(raw, analyte, status)
  if (isProblem(value) && value.outcome === 'refused') return value
  const unclear = unclearProblem(raw)
  if (unclear !== null) return failed(unclear, on)
  if (patient?.id !== patientId) return failed(problem('unknown-patient', { column: 'patient_id', text: patientId }), on)
  const other = otherPerson(raw, patient)
  if (other !== null) return failed(other, on)
  if (analyte === null || value === null) {
    const why = whyNeverMapped(code)
    return failed(
      problem('unknown-code', { column: 'code', text: code, detail: why === null ? '' : `is ${why}, and stands for nothing followed here` }),
      on,
    )
  }
  if (isProblem(value)) return failed(value, on)
  const limits = limitsOf(raw, analyte, value)
  if (isProblem(limits)) return failed(limits, on)
  const { referenceLow, referenceHigh } = limits
  const when = lifetimeProblem('collected', 'collected_at', collected.text, collected.on, patient, today)
  if (when !== null) return failed(when, on)
  const { value: valueText = '', unit: unitText = '' } = raw.received ?? raw.fields
  const provenance = { line: raw.line, valueText, unitText }
  const [accession, laboratory, method] = [field(raw, 'accession') || null, field(raw, 'laboratory') || null, freeText(raw, 'method')]
  return {
    outcome: 'take',
    value: { patientId, analyte, code, collected, status, value, accession, laboratory, method, referenceLow, referenceHigh, reportedAt, provenance },
  }
}
