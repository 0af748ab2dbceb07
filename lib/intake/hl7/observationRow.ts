import { isWithdrawn } from '../../results/index.ts'
import type { RawRow } from '../row.ts'
import { type Unclear, unclearField } from '../unclear.ts'
import { codeOf, unitOf } from './codeOf.ts'
import { limitsOf } from './limitsOf.ts'
import { observationStatus } from './observationStatus.ts'
import { observedValue } from './observedValue.ts'
import type { NamedPatient } from './patientOf.ts'
import { fieldOf, partOf, receivedField, type Segment } from './segment.ts'
import { dayText, timeText, zoneOf } from './timeText.ts'

/** What stands around an observation: its message's header, its patient and its order. */
export interface Around {
  readonly header: Segment
  readonly patient: NamedPatient
  readonly order: Segment
}

/** The name in a coded field, else its code; of several repetitions all, as a report would print them. */
function named(segment: Segment, number: number): string {
  const repetitions = fieldOf(segment, number)?.components ?? []
  return repetitions.flatMap((_, at) => partOf(segment, number, 2, at) || partOf(segment, number, 1, at) || []).join('; ')
}

// A message says when it was made: where it names no zone, its day is all that is certain of it.
function reportedAt({ header, order }: Around, zone: string | null): string {
  const ofOrder = partOf(order, 22).trim()
  if (ofOrder !== '') return timeText(ofOrder, zone)
  const ofMessage = partOf(header, 7).trim()
  return zone === null ? dayText(ofMessage) : timeText(ofMessage, zone)
}

/** One OBX as a row of results, in the words of our own files; what is unclear about it goes with it. */
export function observationRow(obx: Segment, around: Around): RawRow {
  const { header, patient, order } = around
  const zone = zoneOf(partOf(header, 7).trim())
  const [code, value, unit] = [codeOf(obx), observedValue(obx), unitOf(obx)]
  const statusText = partOf(obx, 11).trim()
  const status = observationStatus(statusText)
  // A withdrawal never fails on the value it takes back.
  const takesBack = status !== null && isWithdrawn({ status })
  const found: readonly (Unclear | null)[] = [
    patient.unclear,
    code.unclear,
    status === null ? 'status' : null,
    ...(takesBack ? [] : [value.unclear, unit.unclear]),
  ]
  const fields = {
    ...patient.fields,
    collected_at: timeText(partOf(obx, 14).trim() || partOf(order, 7).trim(), zone),
    code: code.text,
    value: value.text,
    unit: unit.text,
    status: status ?? '',
    accession: partOf(order, 3).trim() || partOf(order, 2).trim(),
    laboratory: named(obx, 15) || partOf(obx, 23).trim() || partOf(header, 4).trim(),
    method: named(obx, 17),
    ...limitsOf(fieldOf(obx, 7)?.components.length === 1 ? partOf(obx, 7) : receivedField(obx, 7)),
    reported_at: reportedAt(around, zone),
    ...(status === null ? { observation_status: statusText } : {}),
    ...unclearField(found),
  }
  return { kind: 'results', line: obx.line, text: obx.text, fields, refusal: null }
}
