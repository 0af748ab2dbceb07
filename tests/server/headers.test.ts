import { expect, test } from 'vitest'
import { contentSecurityPolicy, securityHeaders } from '../../app/_server/headers.ts'

const HSTS = 'Strict-Transport-Security'

test('over TLS every answer asks for TLS for a year, with what is below the name; over plain HTTP none does (RFC 6797, 7.2)', () => {
  expect(new Map(securityHeaders(true)).get(HSTS)).toBe('max-age=31536000; includeSubDomains')
  expect(new Map(securityHeaders(false)).has(HSTS)).toBe(false)
  expect(securityHeaders(true).slice(0, -1)).toEqual(securityHeaders(false))
})

test('the policy of the built pages lets nothing run but what carries the nonce, and the development build alone may evaluate', () => {
  const policy = contentSecurityPolicy('abc', false)
  expect(policy).toContain("default-src 'none'")
  expect(policy).toContain("script-src 'self' 'nonce-abc' 'strict-dynamic'")
  expect(policy).not.toMatch(/unsafe|\*|https?:/)
  expect(contentSecurityPolicy('abc', true)).toContain("'unsafe-eval'")
})
