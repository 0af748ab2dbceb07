import { quoted } from './quoted.ts'
import { HELD_REASONS, type HeldReason, type Problem, type RefusedReason } from './reason.ts'

/** What a sentence is about: the column, its text as received, and what else must be said. */
export interface About {
  readonly column: string
  readonly text: string
  readonly detail?: string
}

type Says = (about: { readonly column: string; readonly found: string; readonly detail: string }) => string

const SAYS: Readonly<Record<HeldReason | RefusedReason, Says>> = {
  'unknown-code': ({ found, detail }) =>
    `The code ${found} ${detail || 'names no analyte that is followed here'}; the row waits until a person decides.`,
  'unknown-patient': ({ found }) => `No patient ${found} is known; the row waits until the patient is added.`,
  'unit-missing': ({ detail }) => `The unit is empty; this analyte needs one that converts to ${detail}.`,
  'unit-unknown': ({ found, detail }) => `The unit ${found} is no UCUM unit and no known synonym of one; it needs a unit that converts to ${detail}.`,
  'unit-dimension': ({ found, detail }) => `The unit ${found} measures something else; it needs a unit that converts to ${detail}.`,
  'birth-date-differs': ({ found, detail }) =>
    `The birth date ${found} differs from the one known of this patient, ${detail}; a person must decide which is right.`,
  'sex-differs': ({ found, detail }) =>
    `The sex ${found} differs from the one known of this patient, ${detail}; a person must decide which is right.`,
  'decimal-comma': ({ column, found }) => `${column} ${found} has a comma; it needs a decimal point, as in 12.5.`,
  'thousands-separator': ({ column, found }) =>
    `${column} ${found} may have a thousands separator; it needs plain digits with at most a decimal point.`,
  'value-unreadable': ({ column, found, detail }) => `${column} ${found} is not understood; it needs ${detail || 'a number'}.`,
  'limit-unreadable': ({ column, found, detail }) =>
    `${column} ${found} is not understood; it needs ${detail || 'a number in the unit of the value, or to be empty'}.`,
  'out-of-range': ({ column, found, detail }) =>
    `${column} ${found} is outside what can be, ${detail}; unit, decimal point and code need a person's check.`,
  'collected-in-future': ({ found, detail }) => `Collected ${found}, after today, ${detail}; the day needs a person's check.`,
  'collected-before-birth': ({ found, detail }) =>
    `Collected ${found}, before the patient's birth, ${detail}; day and patient need a person's check.`,
  'collected-after-death': ({ found, detail }) => `Collected ${found}, after the patient's death, ${detail}; day and patient need a person's check.`,
  'happened-in-future': ({ column, found, detail }) => `${column} ${found} is after today, ${detail}; the day needs a person's check.`,
  'happened-before-birth': ({ column, found, detail }) =>
    `${column} ${found} is before the patient's birth, ${detail}; day and patient need a person's check.`,
  'happened-after-death': ({ column, found, detail }) =>
    `${column} ${found} is after the patient's death, ${detail}; day and patient need a person's check.`,
  'conflicting-value': ({ detail }) => detail,
  'correction-before-original': ({ detail }) => detail,
  'patient-unclear': ({ found }) => `The message gives several identifiers that may each be the patient's, ${found}; a person must say who it is.`,
  'status-unclear': ({ found }) => `The status ${found} (OBX-11) does not say whether the value counts; it needs P, F, C, X, W or D.`,
  'escape-unknown': ({ column, found }) => `${column} ${found} has an escape that stands for nothing known; a person must see what was meant.`,
  'kind-not-read': ({ column, found }) => `${column} is given as ${found}, a kind that is not read; the row waits until a person decides.`,
  'time-twice': ({ column, found, detail }) =>
    `${column} ${found} came twice: the clocks in ${detail} were put back over it that night. It needs its offset from UTC; the day is certain, the time is not.`,
  'row-too-long': ({ detail }) => `The row has ${detail}; it needs one field for each column.`,
  'row-too-short': ({ detail }) => `The row has ${detail}; it needs one field for each column.`,
  'missing-field': ({ column }) => `${column} is empty; this row needs it.`,
  'column-not-used': ({ column, found, detail }) => `${column} is ${found}, but ${detail} does not use that column; it needs to be empty.`,
  'bad-character': ({ column }) => `${column} contains the character U+0000; no text may.`,
  'bad-date': ({ column, found, detail }) => `${column} ${found} is no date: ${detail}.`,
  'bad-status': ({ found, detail }) => `The status ${found} is unknown; it needs one of ${detail}, or to be empty for final.`,
  'bad-word': ({ column, found, detail }) => `${column} ${found} is unknown; it needs one of ${detail}.`,
  'not-a-number': ({ column, found }) => `${column} ${found} is no number a laboratory reports; it needs decimal digits.`,
  'not-a-whole-number': ({ column, found, detail }) => `${column} ${found} is no whole number; it needs one of ${detail}.`,
  negative: ({ column, found }) => `${column} ${found} is below 0; no such value can be negative.`,
  'message-not-read': ({ detail }) => `This message ${detail}.`,
  'type-not-read': ({ found }) => `A resource of type ${found} is not read; Patient, Observation and DiagnosticReport are.`,
  'no-resource': ({ detail }) => `There is no resource to read: ${detail}.`,
  'meaning-changed': ({ column }) => `The resource has ${column}, which may change what it means and is not known here; it is not read.`,
  'bad-element': ({ column, detail }) => `${column} is not what FHIR R4 has there; it needs ${detail}.`,
  'subject-unclear': ({ detail }) => `It is not certain who the patient is: ${detail}; nobody is guessed.`,
  'record-not-in-use': ({ detail }) => `This record of a patient ${detail}; it changes nothing.`,
  'only-groups': ({ detail }) => `It has no value of its own${detail}.`,
}

/** A problem with its sentence: held or refused as its reason says. */
export function problem(reason: HeldReason | RefusedReason, { column, text, detail = '' }: About): Problem {
  const sentence = SAYS[reason]({ column, found: quoted(text), detail })
  return isHeld(reason) ? { outcome: 'held', reason, sentence } : { outcome: 'refused', reason, sentence }
}

function isHeld(reason: HeldReason | RefusedReason): reason is HeldReason {
  return (HELD_REASONS as readonly string[]).includes(reason)
}
