import { describe, expect, test } from 'vitest'
import { readTable } from '../../../lib/intake/index.ts'
import { bytesOf } from '../rows.ts'
import { bundleText, type Fields, fate, json, observation, patientResource, readText, resultsOf, rowsOf } from './resources.ts'

const line = (resource: Fields) => json(resource)
const kinds = (text: string) => rowsOf(text).map(({ kind, line: at, refusal }) => [kind, at, refusal?.reason ?? null])

describe('what a file is, is told from what it holds', () => {
  const both = [observation(), patientResource()]
  test.each([
    ['a Bundle', bundleText(both), 2, 1],
    ['a Bundle over many lines, with a byte order mark', `\ufeff\r\n ${JSON.stringify(JSON.parse(bundleText(both)), null, 2)}\r\n`, 2, 1],
    ['NDJSON', both.map(line).join('\n'), 2, 1],
    ['NDJSON with CRLF, blank lines and a byte order mark', `\ufeff\r\n${both.map(line).join('\r\n\r\n')}\r\n\r\n`, 4, 2],
  ])('%s, whatever its name: patients first, each row with its place', (_, text, patientAt, resultAt) => {
    expect(readText(text, 'results.csv')).toMatchObject({ ok: true, kind: null })
    expect(kinds(text)).toEqual([
      ['patients', patientAt, null],
      ['results', resultAt, null],
    ])
    expect(fate(rowsOf(text)[1])).toMatchObject({ patientId: 'P1', analyte: 'serum-m-protein' })
  })

  test('one resource alone, on one line or several', () => {
    expect(kinds(line(patientResource()))).toEqual([['patients', 1, null]])
    expect(readText(JSON.stringify(patientResource(), null, 2))).toMatchObject({ ok: true, kind: 'patients' })
  })

  test('a Bundle without entries has no rows', () => {
    expect(readText('{"resourceType":"Bundle","type":"searchset"}')).toEqual({ ok: true, kind: null, rows: [] })
  })
})

test.each(['collection', 'batch', 'transaction', 'searchset'])('a Bundle of type %s is read', (type) => {
  expect(kinds(bundleText([patientResource()], { type }))).toHaveLength(1)
})

const deep = `{"resourceType":"Observation","extension":${'['.repeat(64)}${']'.repeat(64)}}`
test.each([
  ['of another type', bundleText([], { type: 'message' }), 'bundle-not-read', '"message"'],
  ['of type document', bundleText([], { type: 'document' }), 'bundle-not-read', '"document"'],
  ['of type history', bundleText([], { type: 'history' }), 'bundle-not-read', '"history"'],
  ['of no type', '{"resourceType":"Bundle"}', 'bundle-not-read', '""'],
  ['with implicitRules', bundleText([], { implicitRules: 'http://example.org/rules' }), 'bundle-not-read', 'implicitRules'],
  ['whose entry is no list', bundleText([], { entry: {} }), 'bundle-not-read', 'no list'],
  ['whose entry is null', bundleText([], { entry: null }), 'bundle-not-read', 'no list'],
  ['without resourceType', '{"patients":[]}', 'unknown-json', 'resourceType'],
  ['NDJSON that begins without resourceType', '{"a":1}\n{"a":2}', 'unknown-json', 'resourceType'],
  ['broken', '{"resourceType":"Bundle",\n"type" "collection"}', 'broken-json', 'on line 2 at byte 34'],
  ['that ends in the middle', bundleText([observation()]).slice(0, -20), 'broken-json', 'ends in the middle'],
  ['broken on the third line', `{"resourceType":"Patient"}\n\n{"resourceType":"Ob\u00e9",}`, 'broken-json', 'on line 3 at byte 52'],
  ['with a number JSON has not', '{"resourceType":"Observation","valueQuantity":{"value":NaN}}', 'broken-json', 'no JSON value begins here'],
  ['with a key twice', '{"resourceType":"Patient","gender":"male","gender":"female"}', 'duplicate-key', '"gender" stands twice'],
  ['with 65 levels', deep, 'nested-too-deep', 'more than 64'],
  ['with a NUL byte', '{"resourceType":"Patient","id":"\u0000"}', 'nul-byte', 'NUL byte'],
  ['with text behind it', `${bundleText([])} and more`, 'broken-json', 'more text'],
])('a file is refused whole: %s', (_, text, reason, says) => {
  const table = readText(text)
  expect(table).toMatchObject({ ok: false, reason })
  expect(table.ok ? '' : table.sentence).toMatch(/^file\.json .+\.$/)
  expect(table.ok ? '' : table.sentence).toContain(says)
})

test.each([
  ['Bundle', [...bytesOf('{"resourceType":"Patient","id":"'), 0xe9, ...bytesOf('"}')], 33],
  ['NDJSON', [...bytesOf('{"resourceType":"Patient"}\n{"id":"'), 0xff, ...bytesOf('"}')], 35],
])('bytes that are no UTF-8 refuse a %s and name the byte', (_, bytes, at) => {
  expect(readTable(Uint8Array.from(bytes), 'x.json')).toMatchObject({ reason: 'not-utf-8', sentence: expect.stringContaining(`byte ${at} begins`) })
})

const MODIFIER = { modifierExtension: [{ url: 'http://example.org/not', valueBoolean: true }] }
describe('an entry that is no row to read is a refused row with its reason', () => {
  test.each([
    ['another type', { resourceType: 'Medication' }, 'type-not-read'],
    ['the outcome of a search', { resourceType: 'OperationOutcome', issue: [] }, 'type-not-read'],
    ['a Bundle inside', { resourceType: 'Bundle', type: 'collection' }, 'type-not-read'],
    ['no resourceType', { id: '1' }, 'no-resource'],
    ['a modifierExtension', observation(MODIFIER), 'meaning-changed'],
    ['a modifierExtension of a component', observation({ component: [{ code: {}, ...MODIFIER }] }), 'meaning-changed'],
    ['a modifierExtension in what it contains', observation({ contained: [{ resourceType: 'Specimen', ...MODIFIER }] }), 'meaning-changed'],
    ['implicitRules', observation({ implicitRules: 'http://example.org' }), 'meaning-changed'],
    ['a number in quotes', observation({ valueQuantity: { value: '14.2', unit: 'g/L' } }), 'bad-element'],
    ['an object where a list belongs', observation({ component: {} }), 'bad-element'],
    ['two values', observation({ valueQuantity: { value: 1 }, valueString: '1' }), 'bad-element'],
    ['a value, and why there is none', observation({ dataAbsentReason: { text: 'haemolysed' } }), 'bad-element'],
    ['two times', observation({ effectiveInstant: '2026-06-01T08:00:00Z' }), 'bad-element'],
    ['a report that only groups', { resourceType: 'DiagnosticReport', result: [] }, 'only-groups'],
    ['a panel', observation({ valueString: undefined, hasMember: [{ reference: 'Observation/x' }] }), 'only-groups'],
  ])('%s', (_, resource, reason) => {
    const [row, ...others] = resultsOf(JSON.parse(json(resource)))
    expect([row?.line, row?.refusal?.reason, others]).toEqual([2, reason, []])
    expect(row?.refusal?.sentence).toMatch(/.{20,}\.$/)
    expect(fate(row)).toBe(reason)
  })

  test.each([
    ['nothing', {}],
    ['a request to delete', { request: { method: 'DELETE', url: 'Observation/o' }, resource: observation() }],
    ['a modifierExtension of the entry', { ...MODIFIER, resource: observation() }],
    ['no object', 'Observation/o'],
  ])('an entry with %s', (_, entry) => {
    expect(kinds(json({ resourceType: 'Bundle', type: 'transaction', entry: [entry] }))).toEqual([['results', 1, 'no-resource']])
  })

  test('a line of NDJSON that is no object, or names no type', () => {
    const text = `${line(patientResource())}\n5\n{"id":"x"}`
    expect(kinds(text).slice(1)).toEqual([
      ['results', 2, 'no-resource'],
      ['results', 3, 'no-resource'],
    ])
  })
})

test('a group says how many of its results are not in the file', () => {
  const report = { resourceType: 'DiagnosticReport', result: [{ reference: 'Observation/o' }, { reference: 'Observation/elsewhere' }] }
  const rows = resultsOf(observation(), report)
  expect(rows.map(({ refusal }) => refusal?.sentence ?? null)).toEqual([null, expect.stringContaining('1 of them are not in this file')])
})

test('a report is that of the entry its reference means, not of one with the same id beside it', () => {
  const address = 'https://a.example/Observation/o'
  const report = { resourceType: 'DiagnosticReport', identifier: [{ value: 'R1' }], result: [{ reference: address }] }
  const accession = (...others: Fields[]) => {
    const entry = [{ resource: patientResource() }, { resource: observation() }, { resource: report }, ...others]
    return rowsOf(json({ resourceType: 'Bundle', type: 'collection', entry }))[1]?.fields.accession
  }
  expect(accession()).toBe('R1')
  expect(accession({ fullUrl: address, resource: { resourceType: 'Medication' } })).toBe('')
})

test('Observations contained in a report are its rows', () => {
  const contained = [observation({ id: 'a' }), observation({ id: 'b', code: { coding: [{ system: 'http://loinc.org', code: '718-7' }] } })]
  const report = { resourceType: 'DiagnosticReport', contained, identifier: [{ value: 'R1' }], result: [{ reference: '#a' }, { reference: '#b' }] }
  expect(resultsOf(report).map(fate)).toMatchObject([
    { analyte: 'serum-m-protein', accession: 'R1', provenance: { line: 2 } },
    { analyte: 'haemoglobin', accession: 'R1', provenance: { line: 2 } },
  ])
})

test('the text of a row is the resource as received, on one line; a long one is cut and the cut named', () => {
  const text = '{"resourceType":"Bundle","type":"batch","entry":[{"resource":{ "resourceType" : "Medication",\n "n": 1.00 ,"t":"a  \\" b" }}]}'
  expect(rowsOf(text)[0]?.text).toBe('{"resourceType":"Medication","n":1.00,"t":"a  \\" b"}')
  const long = rowsOf(line({ resourceType: 'Observation', note: 'x'.repeat(5_000) }))[0]?.text ?? ''
  expect(long.length).toBeLessThan(4_100)
  expect(long).toMatch(/\.\.\. \(cut here: 5\d{3} characters as received\)$/)
})

test('`__proto__` is a word like any other', () => {
  const row = resultsOf(JSON.parse(json(observation())))[0]
  const [other] = rowsOf(
    `{"resourceType":"Bundle","type":"batch","entry":[{"resource":${json(observation()).replace('{', '{"__proto__":{"status":"final"},')}}]}`,
  )
  expect(other?.fields).toEqual({ ...row?.fields, patient_id: 'p' })
})
