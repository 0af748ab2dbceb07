import type { AuditEvent, AuditEventEntity, Coding } from 'fhir/r4'
import { AUDIT_SUBTYPES, AUDIT_TYPES, PURPOSES, type Purpose } from './auditCodes.ts'
import type { TrailEvent } from './event.ts'
import { patientsOf } from './patientsOf.ts'
import { recordedAs } from './recordedAs.ts'
import type { TrailRow } from './row.ts'
import { type Telling, trailSays } from './says.ts'

/** How the reader of an export is told whom an entry concerns: by number, by a pseudonym, or not at all. */
export type PatientsTold =
  | { readonly as: 'numbers' }
  | { readonly as: 'pseudonyms'; readonly of: (patientId: string) => string }
  | { readonly as: 'nobody' }

/** Our own names of things, for which no published system is. */
export const OURS = {
  account: 'urn:x-lowmark:account',
  role: 'urn:x-lowmark:role',
  patient: 'urn:x-lowmark:patient-number',
  pseudonym: 'urn:x-lowmark:patient-pseudonym',
  object: 'urn:x-lowmark:object',
  entry: 'urn:x-lowmark:log-entry',
  database: 'urn:x-lowmark:database',
} as const

const ENTITY_TYPE = 'http://terminology.hl7.org/CodeSystem/audit-entity-type'
const OBJECT_ROLE = 'http://terminology.hl7.org/CodeSystem/object-role'
const PERSON: Coding = { system: ENTITY_TYPE, code: '1', display: 'Person' }
const SYSTEM_OBJECT: Coding = { system: ENTITY_TYPE, code: '2', display: 'System Object' }
const role = (code: string, display: string): Coding => ({ system: OBJECT_ROLE, code, display })
const SERVER: Coding = { system: 'http://terminology.hl7.org/CodeSystem/security-source-type', code: '4', display: 'Application Server' }

// HL7 v3 ObservationValue: what was done to the entry before it was handed on.
const HANDLED = {
  pseudonyms: { system: 'http://terminology.hl7.org/CodeSystem/v3-ObservationValue', code: 'PSEUDED', display: 'pseudonymized' },
  nobody: { system: 'http://terminology.hl7.org/CodeSystem/v3-ObservationValue', code: 'REDACTED', display: 'redacted' },
} as const

// 8, a serious failure: not what somebody was refused, but what the program itself could not do, or found wrong with its log.
const SERIOUS: readonly TrailRow['action'][] = ['log-head-sent', 'log-verified', 'backup-made']

function outcomeOf({ outcome, action }: TrailRow): '0' | '4' | '8' {
  if (outcome === 'success') return '0'
  return SERIOUS.includes(action) ? '8' : '4'
}

const identified = (system: string, value: string) => ({ identifier: { system, value } })
const details = (told: Readonly<Record<string, string | null>>) =>
  Object.entries(told).flatMap(([type, value]) => (value === null ? [] : [{ type, valueString: value }]))

function patientEntities(row: TrailRow, told: PatientsTold): readonly AuditEventEntity[] {
  if (told.as === 'nobody') return []
  const what = (id: string) => (told.as === 'numbers' ? identified(OURS.patient, id) : identified(OURS.pseudonym, told.of(id)))
  return patientsOf(JSON.parse(row.event) as TrailEvent).map((id) => ({ what: what(id), type: PERSON, role: role('1', 'Patient') }))
}

function objectEntities({ object, objectVersion }: TrailRow): readonly AuditEventEntity[] {
  if (object === null) return []
  const version = objectVersion === null ? {} : { detail: details({ version: String(objectVersion) }) }
  return [{ what: identified(OURS.object, object), type: SYSTEM_OBJECT, role: role('4', 'Domain Resource'), ...version }]
}

// A file's name may name a patient: whoever is told no number reads the file's.
function sentenceFor(told: Exclude<PatientsTold, { readonly as: 'numbers' }>): Telling {
  return told.as === 'pseudonyms' ? { patients: true, as: told.of, fileNames: false } : { patients: false, fileNames: false }
}

/** The entry itself: what the chain is taken over and no element of the standard holds. Without the hashes and the event where patients are not told by number. */
function entryEntity(row: TrailRow, told: PatientsTold): AuditEventEntity {
  const { sequence, action, sessionHash, requestId, patientId, beforeHash, afterHash, event, previousHash, hash } = row
  const whole = { patient: patientId, before: beforeHash, after: afterHash, event, previousHash, hash }
  const entry = { what: identified(OURS.entry, String(sequence)), type: SYSTEM_OBJECT, role: role('13', 'Security Resource'), name: action }
  const shared = { session: sessionHash, request: requestId }
  if (told.as === 'numbers') return { ...entry, detail: details({ ...shared, ...whole }) }
  return { ...entry, description: trailSays(JSON.parse(event) as TrailEvent, sentenceFor(told)), detail: details(shared) }
}

/**
 * A row of the log as a FHIR R4 AuditEvent (http://hl7.org/fhir/R4/auditevent.html). Told with numbers, it holds everything the chain is taken
 * over. `databaseId` names the database it comes from. Throws for an action this version does not know.
 */
export function auditEventOf(row: TrailRow, told: PatientsTold, databaseId: string): AuditEvent {
  const recorded = recordedAs(row.action)
  if (recorded === null) throw new Error(`This version of Lowmark does not know the action "${row.action}" of entry ${row.sequence}.`)
  const [type, subtype, action] = recorded
  const purpose = row.purpose === null ? {} : { purposeOfEvent: [{ coding: [PURPOSES[row.purpose as Purpose] ?? { code: row.purpose }] }] }
  return {
    resourceType: 'AuditEvent',
    id: String(row.sequence),
    ...(told.as === 'numbers' ? {} : { meta: { security: [{ ...HANDLED[told.as] }] } }),
    type: { ...AUDIT_TYPES[type] },
    subtype: [{ ...AUDIT_SUBTYPES[subtype] }],
    action,
    recorded: row.at,
    outcome: outcomeOf(row),
    ...purpose,
    agent: [
      {
        role: [{ coding: [{ system: OURS.role, code: row.role }] }],
        who: identified(OURS.account, row.actor),
        requestor: true,
        // 2: an IP address (http://hl7.org/fhir/R4/valueset-network-type.html).
        ...(row.address === null ? {} : { network: { address: row.address, type: '2' } }),
      },
    ],
    source: { observer: { ...identified(OURS.database, databaseId), display: 'Lowmark' }, type: [{ ...SERVER }] },
    entity: [...patientEntities(row, told), ...objectEntities(row), entryEntity(row, told)],
  }
}
