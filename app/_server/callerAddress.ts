import { isIP } from 'node:net'

/** An address as it is written in the log: an IPv4 address that came over IPv6 (`::ffff:10.0.0.7`) without its envelope. */
function plain(address: string): string {
  const inner = address.replace(/^::ffff:/i, '')
  return isIP(inner) === 4 ? inner : address
}

/** The address of the one proxy whose word is taken, as LOWMARK_TRUSTED_PROXY says it; null where none is. Throws where it is no IP address. */
export function trustedProxy(setting: string | undefined): string | null {
  if (setting === undefined || setting === '') return null
  if (isIP(setting) === 0) throw new Error(`LOWMARK_TRUSTED_PROXY "${setting}" is not an IP address.`)
  return plain(setting)
}

/**
 * Where a request came from: the address of the connection. Only where that is the trusted proxy, it is the last entry of X-Forwarded-For, the one the
 * proxy itself added; whatever stands before it came from outside and is not believed. What is no IP address is not taken either.
 */
export function callerAddress(connection: string | undefined, forwarded: string | readonly string[] | undefined, trusted: string | null): string {
  const near = plain(connection ?? '')
  if (trusted === null || near !== trusted) return near
  const told = [forwarded ?? []].flat().join(',').split(',').at(-1)?.trim() ?? ''
  return isIP(told) === 0 ? near : plain(told)
}
