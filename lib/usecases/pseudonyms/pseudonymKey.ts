import { readFileSync, statSync } from 'node:fs'

const SETTING = 'LOWMARK_PSEUDONYM_KEY_FILE'
const HOW = 'Make one with: (umask 077; openssl rand -hex 32 > FILE)'
const LEAST_BYTES = 32
const MOST_BYTES = 4096
/** A key of fewer different bytes was typed, not drawn: 32 random ones have fewer than once in 10^20 (ours). */
const LEAST_DIFFERENT = 12
const OTHERS = 0o007

/** A key, or in one sentence why there is none. Neither the key nor a part of it is ever in the sentence. */
export type KeyRead = { readonly ok: true; readonly key: Uint8Array } | { readonly ok: false; readonly reason: string }

const refused = (why: string): KeyRead => ({ ok: false, reason: `The setting ${SETTING} ${why}. ${HOW}` })

function bytesOf(text: string): Uint8Array | null {
  if (/^(?:[0-9a-f]{2})+$/i.test(text)) return Buffer.from(text, 'hex')
  return /^[A-Za-z0-9+/]+={0,2}$/.test(text) && text.length % 4 === 0 ? Buffer.from(text, 'base64') : null
}

function textOf(path: string): string | KeyRead {
  try {
    const { mode, size } = statSync(path)
    if ((mode & OTHERS) !== 0) return refused('names a file that everybody on this machine may open; its owner alone should: chmod 600')
    return size > MOST_BYTES ? refused('names a file too large for a key') : readFileSync(path, 'utf8').trim()
  } catch {
    return refused('names a file that cannot be read')
  }
}

/**
 * The key of the pseudonyms, from the file LOWMARK_PSEUDONYM_KEY_FILE names: at least 32 random bytes in hex or base64 (RFC 4648), kept outside the
 * database and closed to everybody but its owner and group. Read afresh each time: a key that was taken away is gone.
 */
export function pseudonymKey(): KeyRead {
  const path = process.env.LOWMARK_PSEUDONYM_KEY_FILE ?? ''
  if (path === '') return refused('is missing: it names the file with the key of the pseudonyms')
  const text = textOf(path)
  if (typeof text !== 'string') return text
  const key = bytesOf(text)
  if (key === null) return refused('names a file that holds neither hex nor base64')
  if (key.length < LEAST_BYTES) return refused(`names a file with ${key.length} bytes of key; it needs at least ${LEAST_BYTES}`)
  return new Set(key).size < LEAST_DIFFERENT ? refused('names a file whose bytes are not random') : { ok: true, key }
}
