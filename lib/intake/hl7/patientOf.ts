import type { Unclear } from '../unclear.ts'
import { fieldOf, partOf, receivedField, type Segment } from './segment.ts'
import { dayText } from './timeText.ts'

/** Whom a PID segment names, in the words of our own files. */
export interface NamedPatient {
  readonly fields: { readonly patient_id: string; readonly birth_date: string; readonly sex: string }
  readonly unclear: Unclear | null
}

interface Identifier {
  readonly id: string
  readonly authority: string
  readonly type: string
}

/** Unknown says nothing; what is neither female nor male is kept as received, and is another sex than a known one. */
const SEXES = new Map([
  ['F', 'female'],
  ['M', 'male'],
  ['U', ''],
])

function identifiers(pid: Segment): readonly Identifier[] {
  const all = (fieldOf(pid, 3)?.components ?? []).map((_, at) => ({
    id: partOf(pid, 3, 1, at).trim(),
    authority: partOf(pid, 3, 4, at),
    type: partOf(pid, 3, 5, at),
  }))
  return all.filter(({ id }) => id !== '')
}

/** The identifiers of the kind that counts: medical record numbers, else the organisation's own (PI), else all. */
function counting(all: readonly Identifier[]): readonly Identifier[] {
  const ofType = (wanted: string) => all.filter(({ type }) => type === wanted)
  const [records, internal] = [ofType('MR'), ofType('PI')]
  return records.length > 0 ? records : internal.length > 0 ? internal : all
}

/** Reads PID-3, PID-7 and PID-8. Of several identifiers that could each be the patient's none is chosen: the field as received, unclear. */
export function patientOf(pid: Segment): NamedPatient {
  const likely = counting(identifiers(pid))
  const [first, ...others] = likely
  const isClear = others.every(({ id, authority }) => id === first?.id && authority === first.authority)
  const sexText = partOf(pid, 8).trim()
  return {
    fields: {
      patient_id: isClear ? (first?.id ?? '') : receivedField(pid, 3),
      birth_date: dayText(partOf(pid, 7).trim()),
      sex: SEXES.get(sexText) ?? sexText,
    },
    unclear: isClear ? null : 'patient',
  }
}
