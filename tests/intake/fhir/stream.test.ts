import fc from 'fast-check'
import { expect, test } from 'vitest'
import { beginsLikeJson, openFhir } from '../../../lib/intake/fhir/openFhir.ts'
import { bytesInMemory, openTable, type ReadTable, readTable } from '../../../lib/intake/index.ts'
import { bytesOf } from '../rows.ts'
import { anyFile } from './anyFile.ts'
import { readWhole } from './wholeFile.ts'

const NAME = 'file.json'

/** What is read in blocks of so many bytes, all rows from first to last. */
function inBlocks(bytes: Uint8Array, block: number): ReadTable {
  const table = openFhir(bytesInMemory(bytes), NAME, block)
  return table.ok ? { ok: true, kind: table.kind, rows: [...table.rows()] } : table
}

const BLOCKS = [1, 2, 3, 7, 64, 1_000_000]

test('a file read in blocks of any size is what it is when read whole', () => {
  const reached = { rows: 0, patients: 0, several: 0, reported: 0 }
  fc.assert(
    fc.property(anyFile, (bytes) => {
      fc.pre(beginsLikeJson(bytesInMemory(bytes)))
      const whole = readWhole(bytes, NAME)
      for (const block of BLOCKS) expect(inBlocks(bytes, block)).toEqual(whole)
      if (!whole.ok) return
      reached.rows += whole.rows.length
      reached.patients += whole.rows.filter(({ kind }) => kind === 'patients').length
      reached.several += whole.rows.length - new Set(whole.rows.map(({ line }) => line)).size
      reached.reported += whole.rows.filter(({ fields }) => fields.laboratory !== undefined && fields.laboratory !== '').length
    }),
    { numRuns: 300 },
  )
  expect(reached.rows).toBeGreaterThan(1_000)
  expect(Math.min(reached.patients, reached.several, reached.reported)).toBeGreaterThan(10)
})

test('its rows can be asked for one by one, in any order', () => {
  fc.assert(
    fc.property(anyFile, fc.infiniteStream(fc.nat()), (bytes, picks) => {
      fc.pre(beginsLikeJson(bytesInMemory(bytes)))
      const [table, whole] = [openTable(bytesInMemory(bytes), NAME), readTable(bytes, NAME)]
      if (!table.ok || !whole.ok) {
        expect(table).toEqual(whole)
        return
      }
      expect([table.count, table.kind]).toEqual([whole.rows.length, whole.kind])
      expect(whole.rows.map((_, place) => table.rowAt(place))).toEqual(whole.rows)
      for (const [at] of [...picks.take(5)].map((pick) => [pick % Math.max(1, table.count)] as const)) {
        if (table.count > 0) expect(table.rowAt(at)).toEqual(whole.rows[at])
      }
      for (const none of [-1, table.count, 0.5]) expect(() => table.rowAt(none)).toThrow(RangeError)
    }),
    { numRuns: 300 },
  )
})

const PUT = [
  ...['', '"', '{', '}', '[', ']', ',', ':', '-', '1', '\n', '\\', '\\u12', '\\ud800', 'null', '"id":1,', '"id":1,"id":1,', 'é', '[[[['].map(
    (text) => [...bytesOf(text)],
  ),
]
const BAD = [[0], [0xff], [0xc3], [0xe2, 0x82], [0xed, 0xa0, 0x80]]
const edit = fc.tuple(
  fc.nat(20_000),
  fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...PUT) }, { weight: 1, arbitrary: fc.constantFrom(...BAD) }),
  fc.nat(3),
)

function changed(bytes: Uint8Array, edits: readonly (readonly [number, readonly number[], number])[]): Uint8Array {
  return edits.reduce((now, [at, put, gone]) => {
    const where = at % (now.length + 1)
    return Uint8Array.from([...now.subarray(0, where), ...put, ...now.subarray(where + gone)])
  }, bytes)
}

test('bytes changed anywhere: the same fault at the same place, or the same rows', () => {
  const reasons = new Map<string, number>()
  fc.assert(
    fc.property(anyFile, fc.array(edit, { minLength: 1, maxLength: 3 }), fc.constantFrom(...BLOCKS), (good, edits, block) => {
      const bytes = changed(good, edits)
      fc.pre(beginsLikeJson(bytesInMemory(bytes)))
      const whole = readWhole(bytes, NAME)
      expect(inBlocks(bytes, block)).toEqual(whole)
      const reason = whole.ok ? 'read' : whole.reason
      reasons.set(reason, (reasons.get(reason) ?? 0) + 1)
    }),
    { numRuns: 2_500 },
  )
  for (const reason of ['read', 'broken-json', 'nul-byte', 'not-utf-8', 'duplicate-key', 'unknown-json'])
    expect(reasons.get(reason)).toBeGreaterThan(2)
})

test('cut anywhere, it ends in the middle, and nothing of it is read', () => {
  const text = '{"resourceType":"Bundle","entry":[{"fullUrl":"urn:uuid:é","resource":{"resourceType":"Patient","id":"\\u00e9"}}, 12 ],"type":"batch"}'
  const bytes = bytesOf(text)
  expect(inBlocks(bytes, 3)).toMatchObject({ ok: true, kind: null })
  for (let to = 1; to < bytes.length; to++) {
    const part = bytes.subarray(0, to)
    const read = inBlocks(part, 3)
    expect(read).toEqual(readWhole(part, NAME))
    expect(read.ok ? 'read' : read.reason).toMatch(/^(broken-json|not-utf-8)$/)
  }
})
