import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto'

const CIPHER = 'aes-256-gcm'
const IV_BYTES = 12
const TAG_BYTES = 16

/** The key of seals, of NEXTAUTH_SECRET and of nothing else (HKDF-SHA-256, RFC 5869). Throws where there is no secret. */
function sealingKey(): Buffer {
  const secret = process.env.NEXTAUTH_SECRET ?? ''
  if (secret === '') throw new Error('NEXTAUTH_SECRET is missing, so nothing can be sealed.')
  return Buffer.from(hkdfSync('sha256', secret, '', 'lowmark second factor', 32))
}

/** A text that only this server can read again (AES-256-GCM). `about` says what it belongs to: read again as something else, it does not open. */
export function seal(text: string, about: string): string {
  const iv = randomBytes(IV_BYTES)
  const cipher = createCipheriv(CIPHER, sealingKey(), iv, { authTagLength: TAG_BYTES }).setAAD(Buffer.from(about))
  const sealed = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()])
  return ['v1', iv, cipher.getAuthTag(), sealed].map((part) => (typeof part === 'string' ? part : part.toString('base64url'))).join('.')
}

/** What was sealed; null where it was sealed under another secret or about something else, or was changed. */
export function unseal(sealed: string, about: string): string | null {
  const [version, iv = '', tag = '', text = ''] = sealed.split('.')
  if (version !== 'v1') return null
  try {
    const decipher = createDecipheriv(CIPHER, sealingKey(), Buffer.from(iv, 'base64url'), { authTagLength: TAG_BYTES })
    decipher.setAAD(Buffer.from(about)).setAuthTag(Buffer.from(tag, 'base64url'))
    return `${decipher.update(text, 'base64url', 'utf8')}${decipher.final('utf8')}`
  } catch {
    return null
  }
}
