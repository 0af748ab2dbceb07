import type { Condition, Device, Patient } from 'fhir/r4'
import type { Course } from '../../course/index.ts'
import type { Patient as KnownPatient } from '../../results/index.ts'
import { RULES_VERSION } from '../../rules/index.ts'
import { hl7, OURS, referenceTo, stringOf } from './told.ts'

function nameOf({ familyName, givenName }: KnownPatient): Pick<Patient, 'name'> {
  const [family, given] = [stringOf(familyName), stringOf(givenName)]
  if (family === undefined && given === undefined) return {}
  return { name: [{ ...(family === undefined ? {} : { family }), ...(given === undefined ? {} : { given: [given] }) }] }
}

/** The patient with number, name, sex, date of birth and, where recorded, death. */
export function patientResource(known: KnownPatient, id: string): Patient & { id: string } {
  const { status, statusOn } = known
  return {
    resourceType: 'Patient',
    id,
    identifier: [{ type: hl7('v2-0203', 'MR', 'Medical record number'), system: OURS.patient, value: stringOf(known.id) }],
    ...nameOf(known),
    gender: known.sex,
    birthDate: known.birthDate,
    ...(status !== 'died' ? {} : statusOn === null ? { deceasedBoolean: true } : { deceasedDateTime: statusOn }),
  }
}

/** What wrote the Bundle: program, version of the rules, version of the clinic's plan. */
export function deviceResource(id: string, planVersion: string): Device & { id: string } {
  return {
    resourceType: 'Device',
    id,
    deviceName: [{ name: 'Lowmark', type: 'user-friendly-name' }],
    version: [
      { type: { text: 'rules' }, value: RULES_VERSION },
      { type: { text: 'follow-up plan' }, value: planVersion },
    ],
  }
}

const PHASE: Readonly<Record<string, string>> = {
  mgus: 'monoclonal gammopathy of undetermined significance',
  smouldering: 'smouldering myeloma',
  active: 'active myeloma',
  'plasma-cell-leukaemia': 'plasma cell leukaemia',
}

/** The phase as the clinic recorded it, in words and without a code: to choose one would be to diagnose. None where no phase is recorded. */
export function conditionsOf({ phase, heavyChain, involved }: Course, id: string, patient: string): (Condition & { id: string })[] {
  if (phase === null) return []
  const chains = [
    heavyChain === null || heavyChain === 'none' ? null : `heavy chain ${heavyChain}`,
    involved === null ? null : `light chain ${involved.chain}`,
  ]
  const typed = chains.filter((chain) => chain !== null)
  return [
    {
      resourceType: 'Condition',
      id,
      clinicalStatus: hl7('condition-clinical', 'active', 'Active'),
      code: { text: [PHASE[phase.phase] ?? phase.phase, ...typed].join(', ') },
      subject: referenceTo(patient),
      onsetDateTime: phase.since,
      note: [{ text: 'As the clinic recorded it. Lowmark does not diagnose.' }],
    },
  ]
}
