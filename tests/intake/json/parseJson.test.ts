import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compactText } from '../../../lib/intake/json/compactText.ts'
import { isList, isNumber, isObject, type Json } from '../../../lib/intake/json/json.ts'
import { parseJson } from '../../../lib/intake/json/parseJson.ts'

/** As JSON.parse answers it. */
function plain(value: Json): unknown {
  if (isNumber(value)) return Number(value.text)
  if (isList(value)) return value.map(plain)
  return isObject(value) ? Object.fromEntries([...value.members].map(([key, one]) => [key, plain(one)])) : value
}

test('reads what JSON.parse reads, blanks or not', () => {
  fc.assert(
    fc.property(fc.json({ maxDepth: 5 }), fc.constantFrom(0, 2), (text, indent) => {
      const spaced = JSON.stringify(JSON.parse(text), null, indent)
      const parsed = parseJson(spaced)
      // A lone half of a surrogate pair is refused, and JSON.stringify writes it as an escape.
      if (!parsed.ok) expect(parsed.detail).toContain('surrogate')
      else expect(plain(parsed.value)).toEqual(JSON.parse(spaced))
      expect(compactText(spaced).slice(0, 4_000)).toBe(JSON.stringify(JSON.parse(text)).slice(0, 4_000))
    }),
  )
})

test('refuses what JSON.parse refuses', () => {
  const text = fc.string({
    unit: fc.constantFrom('{', '}', '[', ']', '"', ',', ':', '1', '0', '.', 'e', '-', '+', 'a', '\\', 'u', 'true', 'null', ' '),
  })
  fc.assert(
    fc.property(text, (candidate) => {
      const isJson = (() => {
        try {
          JSON.parse(candidate)
          return true
        } catch {
          return false
        }
      })()
      const parsed = parseJson(candidate)
      expect(parsed.ok || parsed.reason === 'duplicate-key').toBe(isJson)
    }),
    { numRuns: 2_000 },
  )
})

test.each(['1.0', '1', '14.20', '-0', '1e309', '0.1000000000000000055511151231257827', '123456789012345678901234567890'])(
  'keeps %s as spelt',
  (text) => {
    expect(parseJson(text)).toEqual({ ok: true, value: { kind: 'number', text } })
  },
)

describe('refuses', () => {
  test.each([
    ['{"a":1,"a":2}', 'duplicate-key', 7, '"a" stands twice'],
    ['{"a":1,"\\u0061":2}', 'duplicate-key', 7, '"a" stands twice'],
    ['{"__proto__":1,"__proto__":2}', 'duplicate-key', 15, '__proto__'],
    ['[1,]', 'broken-json', 3, 'no JSON value begins here'],
    ['{"a" 1}', 'broken-json', 5, 'colon'],
    ['{a:1}', 'broken-json', 1, 'double quotes'],
    ['[1 2]', 'broken-json', 3, 'comma or ]'],
    ['{"a":1', 'broken-json', 6, 'ends in the middle'],
    ['"a', 'broken-json', 2, 'ends in the middle'],
    ['"a\nb"', 'broken-json', 2, 'control character'],
    ['"\\x41"', 'broken-json', 1, 'no such escape'],
    ['"\\ud800"', 'broken-json', 0, 'surrogate'],
    ['NaN', 'broken-json', 0, 'no JSON value'],
    ['[Infinity]', 'broken-json', 1, 'no JSON value'],
    ['[0x1F]', 'broken-json', 2, 'comma or ]'],
    ['[01]', 'broken-json', 2, 'comma or ]'],
    ['[+1]', 'broken-json', 1, 'no JSON value'],
    ['[.5]', 'broken-json', 1, 'no JSON value'],
    ['[1.]', 'broken-json', 2, 'comma or ]'],
    ['{} {}', 'broken-json', 3, 'more text'],
  ])('%s', (text, reason, at, detail) => {
    expect(parseJson(text)).toEqual({ ok: false, reason, at, detail: expect.stringContaining(detail) })
  })

  test('the 65th level, before anything in it is read; a million levels end no stack', () => {
    const nested = (levels: number) => `${'['.repeat(levels)}${']'.repeat(levels)}`
    expect(parseJson(nested(64)).ok).toBe(true)
    expect(parseJson(nested(65))).toMatchObject({ reason: 'nested-too-deep', at: 64 })
    expect(parseJson('[{"a":'.repeat(500_000))).toMatchObject({ reason: 'nested-too-deep' })
  })
})

test('`__proto__` is a key like any other', () => {
  const parsed = parseJson('{"__proto__":{"polluted":true},"constructor":1}')
  expect(parsed.ok && isObject(parsed.value) ? [...parsed.value.members.keys()] : []).toEqual(['__proto__', 'constructor'])
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
})

test('texts of ten million characters and a million escapes are read', () => {
  const text = `["${'x'.repeat(10_000_000)}","${'\\n\\"'.repeat(1_000_000)}"]`
  const parsed = parseJson(text)
  expect(parsed.ok && isList(parsed.value) ? parsed.value.map((one) => (typeof one === 'string' ? one.length : 0)) : []).toEqual([
    10_000_000, 2_000_000,
  ])
  expect(compactText(text)).toContain('(cut here: 14000007 characters as received)')
})
