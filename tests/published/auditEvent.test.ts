import { expect, test } from 'vitest'
import { auditEventOf, NO_HEAD, nextRow, readAuditEvent, type TrailEvent } from '../../lib/trail/index.ts'
import { auditEventProblems } from './auditEventR4.ts'

const NURSE = {
  actor: { name: 'navigator', role: 'navigator', sessionHash: 'ab'.repeat(32), address: '192.0.2.7', requestId: 'r-1' },
  now: '2026-11-25T10:00:00.000Z',
} as const
const DATABASE = 'd'.repeat(32)
const OPENED = { action: 'held-opened', heldId: 7, patientId: 'P1', beside: ['P2', 'P1'] } as const

function told(event: TrailEvent) {
  return auditEventOf(nextRow(NO_HEAD, NURSE, event), { as: 'numbers' }, DATABASE)
}

// Element by element after http://hl7.org/fhir/R4/auditevent.html and IHE Basic Audit Log Patterns; this line must stay as it is, byte for byte:
// files that were written with it are verified against it for years.
test('an entry is told in the words of FHIR R4, and always in the same bytes', () => {
  const { entity, ...rest } = told(OPENED)
  expect(rest).toEqual({
    resourceType: 'AuditEvent',
    id: '1',
    type: { system: 'http://dicom.nema.org/resources/ontology/DCM', code: '110110', display: 'Patient Record' },
    subtype: [{ system: 'http://hl7.org/fhir/restful-interaction', code: 'read', display: 'read' }],
    action: 'R',
    recorded: '2026-11-25T10:00:00.000Z',
    outcome: '0',
    purposeOfEvent: [
      { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v3-ActReason', code: 'RECORDMGT', display: 'records management' }] },
    ],
    agent: [
      {
        role: [{ coding: [{ system: 'urn:x-lowmark:role', code: 'navigator' }] }],
        who: { identifier: { system: 'urn:x-lowmark:account', value: 'navigator' } },
        requestor: true,
        network: { address: '192.0.2.7', type: '2' },
      },
    ],
    source: {
      observer: { identifier: { system: 'urn:x-lowmark:database', value: DATABASE }, display: 'Lowmark' },
      type: [{ system: 'http://terminology.hl7.org/CodeSystem/security-source-type', code: '4', display: 'Application Server' }],
    },
  })
  const named = entity?.map(({ what, role }) => [what?.identifier?.system, what?.identifier?.value, role?.display])
  expect(named).toEqual([
    ['urn:x-lowmark:patient-number', 'P1', 'Patient'],
    ['urn:x-lowmark:patient-number', 'P2', 'Patient'],
    ['urn:x-lowmark:object', 'held row 7', 'Domain Resource'],
    ['urn:x-lowmark:log-entry', '1', 'Security Resource'],
  ])
  expect(entity?.at(-1)?.detail?.map(({ type }) => type)).toEqual(['session', 'request', 'patient', 'event', 'previousHash', 'hash'])
})

test.each([
  [{ action: 'sign-in', outcome: 'failure' }, ['110114', '110122', 'E', '4', 'HOPERAT']],
  [{ action: 'patient-opened', patientId: 'P1' }, ['110110', 'read', 'R', '0', 'TREAT']],
  [{ action: 'list-exported', patients: ['P1'] }, ['110106', 'read', 'R', '0', 'TREAT']],
  [{ action: 'patient-exported', patientId: 'P1', as: 'fhir', revision: 2 }, ['110106', 'read', 'R', '0', 'TREAT']],
  [{ action: 'pseudonymous-list-exported', patients: ['P1'] }, ['110106', 'read', 'R', '0', 'HQUALIMP']],
  [{ action: 'report-read', fileId: 4 }, ['110107', 'read', 'R', '0', 'RECORDMGT']],
  [{ action: 'account-role-changed', account: 'a', from: 'quality', to: 'physician' }, ['110113', '110136', 'U', '0', 'HSYSADMIN']],
  [{ action: 'log-verified', rows: 9, firstBad: 4, heads: 1 }, ['110101', 'operation', 'E', '8', 'HCOMPL']],
  [{ action: 'log-read', scope: 'all' }, ['110101', 'read', 'R', '0', 'HCOMPL']],
  [{ action: 'log-retired', first: 1, last: 2, previousHash: 'a', lastHash: 'b', fileSha256: 'c' }, ['110101', 'delete', 'D', '0', 'RECORDMGT']],
] as const)('%j', (event, codes) => {
  const { type, subtype, action, outcome, purposeOfEvent } = told(event)
  expect([type.code, subtype?.[0]?.code, action, outcome, purposeOfEvent?.[0]?.coding?.[0]?.code]).toEqual(codes)
})

test('readers who are told no patient get no number, no event and no hash, and every line says so', () => {
  const row = nextRow(NO_HEAD, NURSE, OPENED)
  const redacted = auditEventOf(row, { as: 'nobody' }, DATABASE)
  const pseudonymous = auditEventOf(row, { as: 'pseudonyms', of: (id) => `Q${id.length}` }, DATABASE)
  for (const text of [redacted, pseudonymous].map((one) => JSON.stringify(one))) {
    for (const secret of ['P1', 'P2', row.hash, row.previousHash, '"event"']) expect(text).not.toContain(secret)
    expect(readAuditEvent(text)).toEqual({ kind: 'not-whole' })
  }
  expect([redacted.meta?.security?.[0]?.code, pseudonymous.meta?.security?.[0]?.code]).toEqual(['REDACTED', 'PSEUDED'])
  expect(pseudonymous.entity?.[0]?.what?.identifier).toEqual({ system: 'urn:x-lowmark:patient-pseudonym', value: 'Q2' })
  expect(redacted.entity?.at(-1)?.description).toBe('Held row 7 was opened beside the course of a patient, with a value of 2 other patients.')
})

const LINE = JSON.stringify(told(OPENED))

test.each([
  ['the kind of event', '"code":"110110"', '"code":"110112"'],
  ['what was done', '"action":"R"', '"action":"U"'],
  ['a word of the codes', 'Patient Record', 'Patient record'],
  ['a patient taken out of the list', '"value":"P2"', '"value":"P1"'],
  ['who', 'account","value":"navigator"', 'account","value":"physician"'],
  ['a blank', '"id":"1",', '"id":"1", '],
  ['a second value of one name', '"id":"1",', '"id":"1","id":"1",'],
])('a line in which %s was changed is no entry, or an entry that does not follow', (_, from, to) => {
  const changed = LINE.replace(from, to)
  expect(changed).not.toBe(LINE)
  const read = readAuditEvent(changed)
  const hash = read.kind === 'entry' ? nextRow(NO_HEAD, { ...NURSE, actor: { ...NURSE.actor, name: read.row.actor } }, OPENED).hash : null
  expect(read.kind === 'unreadable' || (read.kind === 'entry' && hash !== read.row.hash)).toBe(true)
})

test('the check of the structure finds what the standard forbids', () => {
  const good = told(OPENED)
  expect(auditEventProblems(good)).toEqual([])
  const { recorded: _, ...without } = good
  expect(auditEventProblems(without)).toEqual(['AuditEvent.recorded is missing'])
  expect(auditEventProblems({ ...good, outcome: '1' })).toEqual(['AuditEvent.outcome is not in its value set: 1'])
  expect(auditEventProblems({ ...good, agent: [] })).toEqual(['AuditEvent.agent is no list of at least one'])
  expect(auditEventProblems({ ...good, who: 'x' })).toEqual(['AuditEvent.who is no element of it'])
  expect(auditEventProblems({ ...good, recorded: '2026-11-25 10:00' })).toEqual([expect.stringContaining('AuditEvent.recorded is no instant')])
  expect(auditEventProblems({ ...good, type: { system: 'http://dicom.nema.org/resources/ontology/DCM', code: '1' } })).toEqual([
    expect.stringContaining('AuditEvent.type is not in its value set'),
  ])
})
