import type { Analyte, Measured } from '../results/index.ts'
import type { Moment } from '../time/index.ts'
import { momentIn } from './dateText.ts'
import { analyteOfCode } from './loinc.ts'
import { readMeasured } from './measured.ts'
import type { Problem } from './reason.ts'
import { field, isProblem, type RawRow } from './row.ts'

/** How far the columns of a row of results can be read, each by itself; null where a column cannot be, or where what it needs could not. */
export interface ReadSteps {
  readonly collected: Moment | null
  readonly analyte: Analyte | null
  readonly value: Measured | null
  /** What is wrong with value and unit, where the code is known. */
  readonly valueProblem: Problem | null
}

/** Reads each column of a row of results by itself, so that a person sees what stops the row and what does not. Files nothing. */
export function readSteps(raw: RawRow): ReadSteps {
  const moment = momentIn(raw, 'collected_at')
  const analyte = analyteOfCode(field(raw, 'code'))
  const measured = analyte === null || field(raw, 'value') === '' ? null : readMeasured(analyte, field(raw, 'value'), field(raw, 'unit'))
  return {
    collected: isProblem(moment) ? null : moment,
    analyte,
    value: isProblem(measured) ? null : measured,
    valueProblem: isProblem(measured) ? measured : null,
  }
}
