import fc from 'fast-check'
import { expect, test } from 'vitest'
import { canonicalJson, FIRST_PREVIOUS, NO_HEAD, nextRow, type TrailEvent, type TrailRow, verifyChain } from '../../lib/trail/index.ts'

const CALL = {
  actor: { name: 'navigator', role: 'navigator', sessionHash: null, address: '127.0.0.1', requestId: 'r' },
  now: '2026-11-25T10:00:00.000Z',
} as const

const EVENTS: readonly TrailEvent[] = [
  { action: 'sign-in', outcome: 'success' },
  { action: 'list-shown', patients: ['P1', 'P2'] },
  { action: 'patient-opened', patientId: 'P2' },
  { action: 'held-resolved', heldId: 4, patientId: 'P2', decision: 'file' },
  { action: 'sign-out' },
]

function chained(events: readonly TrailEvent[]): TrailRow[] {
  const rows: TrailRow[] = []
  for (const event of events) rows.push(nextRow(rows.at(-1) ?? NO_HEAD, CALL, event))
  return rows
}

test('an untouched log is whole, an empty one too', () => {
  expect(verifyChain(chained(EVENTS))).toBe(null)
  expect(verifyChain([])).toBe(null)
})

test('the first row follows 64 zeros', () => {
  expect(chained(EVENTS)[0]).toMatchObject({ sequence: 1, previousHash: FIRST_PREVIOUS })
})

const CHANGES: readonly Partial<TrailRow>[] = [
  { at: '2026-11-25T10:00:00.001Z' },
  { actor: 'somebody' },
  { role: 'physician' },
  { sessionHash: 'x' },
  { address: null },
  { action: 'sign-out' },
  { outcome: 'failure' },
  { purpose: 'x' },
  { patientId: 'P9' },
  { object: 'x' },
  { objectVersion: 2 },
  { requestId: 's' },
  { beforeHash: 'x' },
  { afterHash: 'x' },
  { event: '{"action":"patient-opened","patientId":"P3"}' },
  { previousHash: FIRST_PREVIOUS },
  { hash: FIRST_PREVIOUS },
]

test.each(CHANGES)('a row changed in %j is named', (change) => {
  const rows = chained(EVENTS)
  expect(verifyChain(rows.map((row) => (row.sequence === 3 ? { ...row, ...change } : row)))).toBe(3)
})

test('the same event with a blank more in its stored text is a changed row', () => {
  const rows = chained(EVENTS).map((row) => (row.sequence === 2 ? { ...row, event: row.event.replace(':', ': ') } : row))
  expect(verifyChain(rows)).toBe(2)
})

test('a row removed from the middle is named by the number that is missing', () => {
  expect(verifyChain(chained(EVENTS).filter((row) => row.sequence !== 3))).toBe(3)
})

test('a removed row is found when the others are numbered again', () => {
  const rows = chained(EVENTS).filter((row) => row.sequence !== 3)
  expect(verifyChain(rows.map((row, index) => ({ ...row, sequence: index + 1 })))).toBe(3)
})

test("two rows in each other's place are found at the first", () => {
  const rows = chained(EVENTS)
  expect(verifyChain([0, 2, 1, 3, 4].flatMap((index) => rows[index] ?? []))).toBe(2)
})

test('a row put in between, with a hash of its own, is found where the chain goes on', () => {
  const rows = chained(EVENTS)
  const forged = nextRow(rows[1] ?? NO_HEAD, CALL, { action: 'sign-out' })
  const later = rows.slice(2).map((row) => ({ ...row, sequence: row.sequence + 1 }))
  expect(verifyChain([...rows.slice(0, 2), forged, ...later])).toBe(4)
})

test('whatever single character of a log is changed, it is found', () => {
  const rows = chained(EVENTS)
  fc.assert(
    fc.property(
      fc.nat(rows.length - 1),
      fc.constantFrom('at', 'actor', 'event', 'hash', 'previousHash', 'requestId'),
      fc.nat(),
      (at, field, where) => {
        const text = rows[at]?.[field as 'at'] ?? ''
        const place = where % text.length
        const changed = `${text.slice(0, place)}${text[place] === '0' ? '1' : '0'}${text.slice(place + 1)}`
        expect(verifyChain(rows.map((row, index) => (index === at ? { ...row, [field]: changed } : row)))).toBe(at + 1)
      },
    ),
  )
})

test('canonical JSON does not depend on the order of keys', () => {
  expect(canonicalJson({ b: [{ d: 1, c: null }], a: 'x' })).toBe('{"a":"x","b":[{"c":null,"d":1}]}')
})
