import type { CodeableConcept, Composition, Condition, DetectedIssue, Device, Observation, Patient, Quantity } from 'fhir/r4'
import type { ExactNumber } from './exactJson.ts'

/** A Quantity of FHIR R4 with its exact digits. */
export type QuantityTold = Omit<Quantity, 'value'> & { readonly value: ExactNumber }

/** An Observation of FHIR R4 whose numbers are exact. */
export type ObservationTold = Omit<Observation, 'valueQuantity' | 'referenceRange' | 'id'> & {
  readonly id: string
  readonly valueQuantity?: QuantityTold
  readonly referenceRange?: readonly { readonly low?: QuantityTold; readonly high?: QuantityTold }[]
}

export type ResourceTold = (Composition | Condition | DetectedIssue | Device | ObservationTold | Patient) & { readonly id: string }

/** Our own names of things, for which no published system is. */
export const OURS = {
  patient: 'urn:x-lowmark:patient-number',
  rule: 'urn:x-lowmark:rule',
  computed: 'urn:x-lowmark:computed',
  window: 'urn:x-lowmark:window',
  state: 'urn:x-lowmark:state',
  certainty: 'urn:x-lowmark:certainty',
} as const

export const LOINC = 'http://loinc.org'
export const UCUM = 'http://unitsofmeasure.org'
const HL7 = 'http://terminology.hl7.org/CodeSystem'

/** A concept of a code system HL7 publishes with FHIR R4, by the last part of its address. */
export function hl7(system: string, code: string, display: string): CodeableConcept {
  return { coding: [{ system: `${HL7}/${system}`, code, display }] }
}

/** A reference within the Bundle. */
export const referenceTo = (id: string): { reference: string } => ({ reference: `urn:uuid:${id}` })

/** A text as a FHIR string may be: without control characters but tab and line ends. Empty texts are none, so they become undefined. */
export function stringOf(text: string | null): string | undefined {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  const plain = (text ?? '').replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, ' ').trim()
  return plain === '' ? undefined : plain
}
