import { expect, test } from 'vitest'
import { callerAddress, trustedProxy } from '../../app/_server/callerAddress.ts'

const PROXY = '127.0.0.1'

test.each([
  ['no proxy is trusted: the header is not believed', '127.0.0.1', '203.0.113.9', null, '127.0.0.1'],
  ['the proxy tells', '127.0.0.1', '203.0.113.9', PROXY, '203.0.113.9'],
  ['the proxy tells, over IPv6', '::ffff:127.0.0.1', '::ffff:203.0.113.9', PROXY, '203.0.113.9'],
  ['the proxy tells an IPv6 address', '127.0.0.1', '2001:db8::7', PROXY, '2001:db8::7'],
  ['a caller wrote an address of its own; the proxy added the true one', '127.0.0.1', '10.0.0.1, 203.0.113.9', PROXY, '203.0.113.9'],
  ['the same, as two headers', '127.0.0.1', ['10.0.0.1', '203.0.113.9'], PROXY, '203.0.113.9'],
  ['somebody else than the proxy tells', '192.0.2.66', '203.0.113.9', PROXY, '192.0.2.66'],
  ['the proxy tells nothing', '127.0.0.1', undefined, PROXY, '127.0.0.1'],
  ['the proxy tells no address', '127.0.0.1', 'unknown', PROXY, '127.0.0.1'],
  ['what stands last is no address, whatever stands before it', '127.0.0.1', '203.0.113.9, ', PROXY, '127.0.0.1'],
  ['a word that would be shown in the log', '127.0.0.1', '203.0.113.9<script>', PROXY, '127.0.0.1'],
  ['the connection is gone already', undefined, '203.0.113.9', PROXY, ''],
])('%s', (_, connection, forwarded, trusted, address) => {
  expect(callerAddress(connection, forwarded, trusted)).toBe(address)
})

test('the setting is one IP address, or there is none', () => {
  expect([trustedProxy(undefined), trustedProxy(''), trustedProxy('127.0.0.1'), trustedProxy('::ffff:127.0.0.1'), trustedProxy('::1')]).toEqual([
    null,
    null,
    '127.0.0.1',
    '127.0.0.1',
    '::1',
  ])
  for (const wrong of ['localhost', '127.0.0.1, 10.0.0.1', '10.0.0.0/8', 'true']) expect(() => trustedProxy(wrong)).toThrow('is not an IP address')
})
