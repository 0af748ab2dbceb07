import { decodeJwt, exportJWK, generateKeyPair, type JWTPayload, SignJWT } from 'jose'

/** A key of the stage's own, which it may add to the provider's published ones. */
export interface OwnKey {
  readonly publicJwk: Readonly<Record<string, unknown>>
  /** Signs claims as the provider would. */
  readonly sign: (claims: JWTPayload) => Promise<string>
}

export async function ownKey(kid: string): Promise<OwnKey> {
  const { publicKey, privateKey } = await generateKeyPair('RS256')
  return {
    publicJwk: { ...(await exportJWK(publicKey)), kid, alg: 'RS256', use: 'sig' },
    sign: (claims) => new SignJWT(claims).setProtectedHeader({ alg: 'RS256', kid }).sign(privateKey),
  }
}

/** Unsigned, as RFC 7519, 6 writes it. */
export function unsigned(claims: JWTPayload): string {
  const part = (value: unknown) => Buffer.from(JSON.stringify(value)).toString('base64url')
  return `${part({ alg: 'none' })}.${part(claims)}.`
}

/** Signed with a secret both sides know. */
export function signedWithSecret(claims: JWTPayload, secret: string): Promise<string> {
  return new SignJWT(claims).setProtectedHeader({ alg: 'HS256' }).sign(Buffer.from(secret))
}

export { decodeJwt }
