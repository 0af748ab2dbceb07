import type { Moment } from '../time/index.ts'
import { type Decimal, decimalText, type Interval } from '../units/index.ts'
import type { IncomingResult } from './incomingResult.ts'
import type { LabResult, Measured, ReferenceLimit } from './labResult.ts'

type Reported = Pick<LabResult, 'value' | 'collected' | 'status' | 'method' | 'referenceLow' | 'referenceHigh'>

const numberOf = (value: Decimal | null): string | null => (value === null ? null : decimalText(value))
const limitOf = (limit: ReferenceLimit | null): string | null => (limit === null ? null : decimalText(limit.printed))
const endsOf = ({ low, high }: Interval): readonly (string | null)[] => [decimalText(low), numberOf(high)]

/** A day and, where a time was given, the instant: 08:00+01:00 and 07:00Z are the same. */
function momentText({ text, on, order }: Moment): string {
  return text === on ? on : `${on} ${new Date(order).toISOString()}`
}

/** The value in canonical words: 15.0 and 15 are equal, `<=1` and `<1` are not. */
export function measuredText(value: Measured): string {
  switch (value.kind) {
    case 'number':
      return JSON.stringify([value.comparator, ...endsOf(value.printed), value.printedUnit])
    case 'present':
      return JSON.stringify(['present', numberOf(value.upTo)])
    case 'immunofixation':
      return JSON.stringify(value.reading)
    case 'none':
      return JSON.stringify(['none', value.reason])
    case 'not-detected':
      return 'not-detected'
  }
}

/**
 * What makes two reports of one result the same again: value as canonically read, unit, collection, status, limits and method. Where a value was
 * read as words or immunofixation, its meaning counts, not its spelling.
 */
export function resultContent(reported: Reported): string {
  const { value, collected, status, method, referenceLow, referenceHigh } = reported
  return JSON.stringify([measuredText(value), momentText(collected), status, method, limitOf(referenceLow), limitOf(referenceHigh)])
}

/**
 * The key of a result over all its versions, fit for a database column: patient, code, laboratory and accession where there is one; else patient,
 * code, laboratory and collection.
 */
export function resultIdentity(incoming: Pick<IncomingResult, 'patientId' | 'code' | 'laboratory' | 'accession' | 'collected'>): string {
  const { patientId, code, laboratory, accession, collected } = incoming
  const sample = accession === null ? ['collected', momentText(collected)] : ['accession', accession]
  return JSON.stringify([patientId, code, laboratory, ...sample])
}
