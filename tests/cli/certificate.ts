import { generateKeyPairSync, type KeyObject, randomBytes, sign } from 'node:crypto'

/** A certificate and its key, PEM, made for one run of the tests. */
export interface Issued {
  readonly cert: string
  readonly key: string
}

export interface Issuer extends Issued {
  readonly name: string
  readonly privateKey: KeyObject
}

/** A value of DER: its tag, its length, its content (ITU-T X.690). */
function der(tag: number, ...contents: readonly Uint8Array[]): Buffer {
  const content = Buffer.concat(contents)
  const { length } = content
  const size = length < 0x80 ? [length] : length < 0x100 ? [0x81, length] : [0x82, length >> 8, length & 0xff]
  return Buffer.concat([Buffer.from([tag, ...size]), content])
}

const [INTEGER, BITS, OCTETS, OID, UTF8, TIME, SEQUENCE, SET] = [0x02, 0x03, 0x04, 0x06, 0x0c, 0x18, 0x30, 0x31] as const
const COMMON_NAME = der(OID, Buffer.from([0x55, 0x04, 0x03]))
const ECDSA_SHA256 = der(SEQUENCE, der(OID, Buffer.from([0x2a, 0x86, 0x48, 0xce, 0x3d, 0x04, 0x03, 0x02])))
const FOR_THIS_MACHINE = der(SEQUENCE, der(OID, Buffer.from([0x55, 0x1d, 0x11])), der(OCTETS, der(SEQUENCE, der(0x87, Buffer.from([127, 0, 0, 1])))))
const IS_AUTHORITY = der(SEQUENCE, der(OID, Buffer.from([0x55, 0x1d, 0x13])), der(OCTETS, der(SEQUENCE, Buffer.from([0x01, 0x01, 0xff]))))

const named = (name: string) => der(SEQUENCE, der(SET, der(SEQUENCE, COMMON_NAME, der(UTF8, Buffer.from(name)))))
const pem = (bytes: Buffer) => `-----BEGIN CERTIFICATE-----\n${bytes.toString('base64').replace(/(.{64})/g, '$1\n')}\n-----END CERTIFICATE-----\n`

/** Issues a certificate for 127.0.0.1 (RFC 5280, version 3, P-256); one that signs itself where no issuer is named, and may then sign others. */
export function issue(name: string, issuer: Issuer | null = null): Issuer {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const content = der(
    SEQUENCE,
    der(0xa0, der(INTEGER, Buffer.from([2]))),
    der(INTEGER, Buffer.from([1]), randomBytes(8)),
    ECDSA_SHA256,
    named(issuer?.name ?? name),
    der(SEQUENCE, der(TIME, Buffer.from('20200101000000Z')), der(TIME, Buffer.from('20991231235959Z'))),
    named(name),
    publicKey.export({ type: 'spki', format: 'der' }),
    der(0xa3, der(SEQUENCE, FOR_THIS_MACHINE, ...(issuer === null ? [IS_AUTHORITY] : []))),
  )
  const signature = sign('sha256', content, issuer?.privateKey ?? privateKey)
  const cert = pem(der(SEQUENCE, content, ECDSA_SHA256, der(BITS, Buffer.from([0]), signature)))
  return { name, cert, key: privateKey.export({ type: 'pkcs8', format: 'pem' }).toString(), privateKey }
}
