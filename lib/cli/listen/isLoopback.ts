import { BlockList, isIP } from 'node:net'

const LOOPBACK = new BlockList()
LOOPBACK.addSubnet('127.0.0.0', 8, 'ipv4')
LOOPBACK.addAddress('::1', 'ipv6')

/** True for an address only this machine can reach. A name other than localhost may lead anywhere. */
export function isLoopback(host: string): boolean {
  const version = isIP(host)
  return version === 0 ? host === 'localhost' : LOOPBACK.check(host, version === 4 ? 'ipv4' : 'ipv6')
}
