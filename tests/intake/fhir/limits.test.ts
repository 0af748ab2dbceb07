import { describe, expect, test } from 'vitest'
import { KeyTable } from '../../../lib/intake/fhir/keyTable.ts'
import { TableOfEntries } from '../../../lib/intake/fhir/tableOfEntries.ts'
import { refusalOf, Unreadable } from '../../../lib/intake/fhir/unreadable.ts'
import { Windows } from '../../../lib/intake/fhir/windows.ts'
import { bytesInMemory, openTable, type ReadTable } from '../../../lib/intake/index.ts'
import { bytesOf } from '../rows.ts'
import { bundleText, json, observation, patientResource, readText, rowsOf } from './resources.ts'

const MIB = 1024 * 1024
const head = '{"resourceType":"Bundle","type":"batch","entry":['
const fate = (table: ReadTable) => (table.ok ? table.rows.map(({ refusal }) => refusal?.reason ?? null) : [table.reason, table.sentence])

/** A resource of exactly so many bytes. */
function ofBytes(length: number): string {
  const text = '{"resourceType":"Medication","x":""}'
  return text.replace('""', `"${'x'.repeat(length - text.length)}"`)
}

describe('an entry may have 16 MiB, and a byte more refuses the file and says where', () => {
  test.each([
    ['an entry of a Bundle', (length: number) => `${head}\n${ofBytes(length)}]}`, 'line 2 at byte 51', 'no-resource'],
    ['a line of NDJSON', (length: number) => `{"resourceType":"Medication"}\n${ofBytes(length)}\n`, 'line 2 at byte 31', 'type-not-read'],
    ['a resource alone', (length: number) => `\n${ofBytes(length)}`, 'line 2 at byte 2', 'type-not-read'],
  ])('%s', (_, text, place, reason) => {
    expect(fate(readText(text(16 * MIB))).at(-1)).toBe(reason)
    const sentence = `file.json has an entry, on ${place}, that is larger than one may be: 16 MiB and 200000 values.`
    expect(fate(readText(text(16 * MIB + 1)))).toEqual(['file-too-large', sentence])
  })

  test('what stands around the entries of a Bundle, in one piece or in many', () => {
    const note = `"x":"${'x'.repeat(16 * MIB)}"`
    expect(fate(readText(`{${note},${head.slice(1)}]}`))[0]).toBe('file-too-large')
    const many = Array.from({ length: 20 }, (_, n) => `"x${n}":"${'x'.repeat(MIB)}"`).join()
    expect(fate(readText(`{${many},${head.slice(1)}]}`))[0]).toBe('file-too-large')
  })

  test('a resource alone whose list is called entry is one entry', () => {
    const items = Array.from({ length: 20 }, () => `{"x":"${'x'.repeat(MIB)}"}`).join()
    expect(fate(readText(`{"resourceType":"List","entry":[${items}]}`))[0]).toBe('file-too-large')
    expect(fate(readText(`{"resourceType":"List","entry":[${items.slice(0, MIB + 8)}]}`))).toEqual(['type-not-read'])
  })

  test('a fault of JSON that makes it seem so large is what is told', () => {
    const open = `${head}{"resource":{"id":"a,"text":"b"}},${ofBytes(17 * MIB)}]}`
    expect(fate(readText(open))).toEqual(['broken-json', expect.stringContaining('on line 1 at byte 72: a comma or } is missing')])
    const deep = `${head}{"resource":${'['.repeat(17 * MIB)}`
    expect(fate(readText(deep))).toEqual(['nested-too-deep', expect.stringContaining('on line 1 at byte 123')])
    const unclosed = `${head}{"resource":{"id":"${'é'.repeat(9 * MIB)}`
    expect(fate(readText(unclosed))[0]).toBe('file-too-large')
  })
})

test.each([0, 1, 2, 3, 4, 5])('where it is cut inside an escape or a word, nothing is wrong but its size (%i)', (more) => {
  const word = `${head}{"x":"${'x'.repeat(16 * MIB - 12 - more)}","y":false,"z":"${'x'.repeat(MIB)}"}]}`
  const escapes = `${head}{"x":"${'x'.repeat(16 * MIB - 3_000 - more)}${'\\u00e9'.repeat(1_000)}${'x'.repeat(MIB)}"}]}`
  for (const text of [word, escapes]) expect(fate(readText(text))).toEqual(['file-too-large', expect.stringContaining('on line 1 at byte 50')])
})

test('an entry may have 200,000 values, so that small ones do not fill the memory', () => {
  // The entry, its resource, its type, the list and what is in it.
  const text = (count: number) => `${head}{"resource":{"resourceType":"Medication","x":[${'0,'.repeat(count - 1)}0]}}]}`
  expect(fate(readText(text(200_000 - 4)))).toEqual(['type-not-read'])
  expect(fate(readText(text(200_000 - 3)))).toEqual(['file-too-large', expect.stringContaining('on line 1 at byte 50')])
})

test('a file may have 4,194,304 entries', () => {
  const windows = new Windows(bytesInMemory(bytesOf('')))
  const entries = new TableOfEntries(windows, true)
  const entry = { line: 1, source: '', fullUrl: '', resource: null, why: 'the entry is no object' }
  for (let n = 0; n < 4_194_304; n++) entries.add(entry, 2 * n, 2 * n + 1)
  const more = () => entries.add(entry, 0, 1)
  expect(more).toThrow(Unreadable)
  const refused = refusalOf(new Unreadable('too-many-entries', 0), windows, 'a.json')
  expect(refused).toMatchObject({ reason: 'file-too-large', sentence: 'a.json has more than 4194304 entries. Send them in several files.' })
})

test('a file of more than 512 MiB is refused by its length', () => {
  const length = 512 * MIB + 1
  const read = (from: number, to: number) => {
    if (from > 0 || to > MIB) throw new Error('it was read')
    return bytesOf(head)
  }
  expect(openTable({ length, read }, 'a.json')).toEqual({
    ok: false,
    reason: 'file-too-large',
    sentence: 'a.json has 536870913 bytes; it may have at most 512 MiB.',
  })
})

test('a file that became another one while its rows are read is not read on', () => {
  const bytes = bytesOf(bundleText([patientResource(), observation()]))
  let now = bytes
  const table = openTable({ length: bytes.length, read: (from, to) => now.slice(from, to) }, 'a.json')
  now = bytes.map((byte) => (byte === 0x7b ? 0x20 : byte))
  expect(() => (table.ok ? [...table.rows()].length : 0)).toThrow(/changed while it was read/)
})

test('two ids that share a hash are two patients', () => {
  const [ids, keys] = [200_000, new KeyTable()]
  const hashed = (n: number) => `tPatient/p${n}`
  for (let n = 0; n < ids; n++) keys.add(hashed(n), n)
  const [one = 0, other = 0] = Array.from({ length: ids }, (_, n) => [...keys.placesOf(hashed(n))]).find((places) => places.length > 1) ?? []
  expect(other).toBeGreaterThan(one)
  const person = (n: number) => patientResource({ id: `p${n}`, identifier: [{ value: `MR${n}` }] })
  const about = (n: number) => observation({ subject: { reference: `Patient/p${n}` } })
  const rows = rowsOf(bundleText([person(one), person(other), about(other), about(one)]))
  expect(rows.map(({ fields }) => fields.patient_id)).toEqual([`MR${one}`, `MR${other}`, `MR${other}`, `MR${one}`])
})

test('the same Patient again beside each result is one patient, however often', () => {
  const lines = Array.from({ length: 3_000 }, () => [json(patientResource()), json(observation())]).flat()
  const rows = rowsOf(lines.join('\n'))
  expect(rows).toHaveLength(6_000)
  expect(new Set(rows.map(({ fields }) => fields.patient_id))).toEqual(new Set(['P1']))
})
