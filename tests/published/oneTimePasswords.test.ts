import { Buffer } from 'node:buffer'
import { Secret } from 'otpauth'
import { describe, expect, test } from 'vitest'
import { stepOfCode } from '../../lib/usecases/secondFactor/totp.ts'

/** The shared secret of both documents: "12345678901234567890" in ASCII. */
const SECRET = Secret.fromLatin1('12345678901234567890').base32

const at = (seconds: number): string => new Date(seconds * 1000).toISOString()

// RFC 6238, appendix B, the rows of SHA-1: time, T, and the code of eight digits. A code of six is its last six: both are one number, modulo 10 to the power of digits.
const RFC_6238 = [
  [59, 0x1, '94287082'],
  [1_111_111_109, 0x23523ec, '07081804'],
  [1_111_111_111, 0x23523ed, '14050471'],
  [1_234_567_890, 0x273ef07, '89005924'],
  [2_000_000_000, 0x3f940aa, '69279037'],
  [20_000_000_000, 0x27bc86aa, '65353130'],
] as const

describe('RFC 6238, appendix B', () => {
  test.each(RFC_6238)('at %i s the step is %i and the code ends %s', (seconds, step, code) => {
    expect(stepOfCode(SECRET, code.slice(2), at(seconds))).toBe(step)
    const another = `${code.slice(2, 7)}${(Number(code.at(-1)) + 1) % 10}`
    expect(stepOfCode(SECRET, another, at(seconds))).toBe(null)
  })
})

// RFC 4226, appendix D: the codes of counts 0 to 9.
const RFC_4226 = ['755224', '287082', '359152', '969429', '338314', '254676', '287922', '162583', '399871', '520489'] as const

describe('RFC 4226, appendix D', () => {
  test.each(RFC_4226.map((code, count) => [count, code] as const))('the code of count %i is %s', (count, code) => {
    expect(stepOfCode(SECRET, code, at(count * 30))).toBe(count)
    expect(stepOfCode(SECRET, code, at(count * 30 + 29.999))).toBe(count)
  })

  test('its secret has 160 bits, as R6 recommends, and so have ours', async () => {
    const { newSecret } = await import('../../lib/usecases/secondFactor/totp.ts')
    const made = Array.from({ length: 50 }, newSecret)
    expect(made.map((secret) => Buffer.from(Secret.fromBase32(secret).bytes).length)).toEqual(made.map(() => 20))
    expect(new Set(made).size).toBe(50)
  })
})

// RFC 6238, 5.2: at most one time step is recommended as the network delay.
test.each([
  [-2, false],
  [-1, true],
  [0, true],
  [1, true],
  [2, false],
])('a code typed %i steps after its own counts: %s', (steps, counts) => {
  expect(stepOfCode(SECRET, RFC_4226[5], at((5 + steps) * 30))).toBe(counts ? 5 : null)
})
