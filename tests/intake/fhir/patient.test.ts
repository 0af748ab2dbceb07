import { describe, expect, test } from 'vitest'
import { bundleText, type Fields, json, observation, patientResource, resultsOf, rowsOf, told } from './resources.ts'

const MR = { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0203', code: 'MR' }] }

describe('a Patient', () => {
  test.each<[string, Fields, object | string]>([
    ['as told', {}, { id: 'P1', birthDate: '1950-03-12', sex: 'female', status: 'followed', familyName: null }],
    ['born in a year', { birthDate: '1950' }, { birthDate: '1950' }],
    ['born in a month', { birthDate: '1950-03' }, { birthDate: '1950-03' }],
    ['a man', { gender: 'male' }, { sex: 'male' }],
    [
      'an official name first',
      {
        name: [
          { use: 'usual', family: 'B' },
          { use: 'official', family: 'A', given: ['X', null, 'Y'] },
        ],
      },
      { familyName: 'A', givenName: 'X Y' },
    ],
    [
      'else the usual one',
      {
        name: [
          { use: 'nickname', family: 'C' },
          { use: 'usual', family: 'B' },
        ],
      },
      { familyName: 'B' },
    ],
    ['never an old one', { name: [{ use: 'old', family: 'C' }] }, { familyName: null }],
    ['a name in one text', { name: [{ text: 'Null O\u2019Brien' }] }, { familyName: 'Null O\u2019Brien' }],
    ['dead', { deceasedBoolean: true }, { status: 'died', statusOn: null }],
    ['not dead', { deceasedBoolean: false }, { status: 'followed' }],
    ['dead on a day', { deceasedDateTime: '2026-05-01' }, { status: 'died', statusOn: '2026-05-01' }],
    ['dead at a time', { deceasedDateTime: '2026-05-01T23:00:00-05:00' }, { status: 'died', statusOn: '2026-05-01' }],
    ['dead in a month', { deceasedDateTime: '2026-05' }, { status: 'died', statusOn: null }],
    ['dead on 31 February', { deceasedDateTime: '2024-02-31' }, 'bad-date'],
    ['born on 31 February', { birthDate: '1950-02-31' }, 'bad-date'],
    ['of another gender', { gender: 'other' }, 'bad-word'],
    ['of unknown gender', { gender: 'unknown' }, 'bad-word'],
    ['without gender', { gender: undefined }, 'missing-field'],
    ['without birth date', { birthDate: undefined }, 'missing-field'],
    ['not active', { active: false }, 'record-not-in-use'],
    ['replaced', { link: [{ type: 'replaced-by', other: { reference: 'Patient/q' } }] }, 'record-not-in-use'],
    ['with modifierExtension', { modifierExtension: [] }, 'meaning-changed'],
    ['with implicitRules', { implicitRules: 'http://example.org' }, 'meaning-changed'],
    ['with a birth date that is a number', { birthDate: 1950 }, 'bad-element'],
  ])('%s', (_, changes, expected) => {
    if (typeof expected === 'string') expect(told(changes)).toBe(expected)
    else expect(told(changes)).toMatchObject(expected)
  })

  test.each<[string, Fields, object | string]>([
    ['the medical record number', { identifier: [{ value: 'N1' }, { type: MR, value: 'P7' }] }, { id: 'P7' }],
    ['the only one', { identifier: [{ value: 'N1' }] }, { id: 'N1' }],
    ['an old one does not count', { identifier: [{ value: 'N1' }, { use: 'old', value: 'N0' }] }, { id: 'N1' }],
    ['none, so its id', { identifier: undefined }, { id: 'p' }],
    ['several without MR', { identifier: [{ value: 'N1' }, { value: 'N2' }] }, 'subject-unclear'],
    [
      'MR of another code system',
      { identifier: [{ value: 'N1' }, { type: { coding: [{ system: 'http://example.org', code: 'MR' }] }, value: 'N2' }] },
      'subject-unclear',
    ],
    ['no identifier and no id', { identifier: [], id: undefined }, 'missing-field'],
  ])('is called by %s', (_, changes, expected) => {
    if (typeof expected === 'string') expect(told(changes)).toBe(expected)
    else expect(told(changes)).toMatchObject(expected)
  })
})

const entries = (patients: readonly Fields[], subject: unknown, changes: Fields = {}) =>
  json({ resourceType: 'Bundle', type: 'collection', entry: [...patients, { resource: observation({ subject, ...changes }) }] })
const idOf = (text: string) => {
  const row = rowsOf(text).find(({ kind }) => kind === 'results')
  return row?.refusal?.reason ?? row?.fields.patient_id
}
const HERE = { fullUrl: 'http://example.org/fhir/Patient/p', resource: patientResource() }

describe('whom an Observation is about', () => {
  test.each<[string, readonly Fields[], unknown, string]>([
    ['a relative reference', [HERE], { reference: 'Patient/p' }, 'P1'],
    ['an absolute one', [HERE], { reference: 'http://example.org/fhir/Patient/p' }, 'P1'],
    ['an absolute one with its version', [HERE], { reference: 'http://example.org/fhir/Patient/p/_history/2' }, 'P1'],
    ['an absolute one, to a Patient without address', [{ resource: patientResource() }], { reference: 'http://example.org/fhir/Patient/p' }, 'P1'],
    ['a urn of the Bundle', [{ fullUrl: 'urn:uuid:1', resource: patientResource({ id: undefined }) }], { reference: 'urn:uuid:1' }, 'P1'],
    ['an identifier', [], { identifier: { value: 'P5' } }, 'P5'],
    ['the id, where the Patient is not in the file', [], { reference: 'Patient/123' }, '123'],
    ['the id of an absolute one', [], { reference: 'https://example.org/Patient/123' }, '123'],
    ['the identifier before an id outside', [], { reference: 'Patient/123', identifier: { value: 'P5' } }, 'P5'],
    ['another address with the same id', [HERE], { reference: 'http://elsewhere.org/Patient/p' }, 'subject-unclear'],
    ['a urn that is not there', [], { reference: 'urn:uuid:2' }, 'subject-unclear'],
    ['a contained one that is not there', [], { reference: '#p' }, 'subject-unclear'],
    ['a group', [], { reference: 'Group/1' }, 'subject-unclear'],
    ['a device with an identifier', [], { type: 'Device', identifier: { value: 'P1' } }, 'subject-unclear'],
    [
      'a Patient with several identifiers',
      [{ resource: patientResource({ identifier: [{ value: '1' }, { value: '2' }] }) }],
      { reference: 'Patient/p' },
      'subject-unclear',
    ],
    ['a Patient that is refused', [{ resource: patientResource({ modifierExtension: [] }) }], { reference: 'Patient/p' }, 'subject-unclear'],
    [
      'two Patients of one id',
      [HERE, { resource: patientResource({ identifier: [{ value: 'P2' }] }) }],
      { reference: 'Patient/p' },
      'subject-unclear',
    ],
    ['text where an object belongs', [], 'Patient/p', 'bad-element'],
  ])('%s', (_, patients, subject, expected) => {
    expect(idOf(entries(patients, subject))).toBe(expected)
  })

  test('a contained Patient', () => {
    expect(idOf(entries([], { reference: '#p' }, { contained: [patientResource()] }))).toBe('P1')
  })

  test('not the patient, where it has a focus of its own', () => {
    expect(idOf(entries([HERE], { reference: 'Patient/p' }, { focus: [{ display: 'a donor' }] }))).toBe('subject-unclear')
  })

  test('the resource itself is no Patient, nor is what it contains without an id', () => {
    expect(idOf(entries([], { reference: '#' }, { contained: [patientResource({ id: undefined })] }))).toBe('subject-unclear')
  })

  test('nobody: the row is refused', () => {
    expect(resultsOf(observation({ subject: undefined }))[0]?.fields.patient_id).toBe('')
    expect(idOf(bundleText([observation({ subject: { display: 'somebody' } })]))).toBe('')
  })
})
