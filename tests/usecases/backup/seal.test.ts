import { createDecipheriv, createHash, createPrivateKey, createPublicKey, diffieHellman, hkdfSync, randomBytes } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { generateX25519Identity, identityToRecipient } from 'age-encryption'
import { afterAll, expect, test } from 'vitest'
import { openSealed, sealFile } from '../../../lib/usecases/backup/seal.ts'

const folder = mkdtempSync(join(tmpdir(), 'lowmark-seal-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const at = (name: string): string => join(folder, name)
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')

/** A key pair printed in the tests of several implementations of the format (from memory). */
const IDENTITY = 'AGE-SECRET-KEY-1GQ9778VQXMMJVE8SK7J6VT8UJ4HDQAJUVSFCWCM02D8GEWQ72PVQ2Y5J33'
const RECIPIENT = 'age1t7rxyev2z3rw82stdlrrepyc39nvn86l5078zqkf5uasdy86jp6svpy7pa'

/** The 32 bytes of a key as Bech32 writes them (BIP 173): five bits a character, a checksum of six at the end. */
function keyBytes(bech32: string): Buffer {
  const data = bech32.toLowerCase().slice(bech32.lastIndexOf('1') + 1, -6)
  const bits = [...data].map((letter) => 'qpzry9x8gf2tvdw0s3jn54khce6mua7l'.indexOf(letter).toString(2).padStart(5, '0')).join('')
  return Buffer.from(bits.match(/.{8}/g)?.map((byte) => Number.parseInt(byte, 2)) ?? [])
}

const unpadded = (text: string): Buffer => Buffer.from(text, 'base64')
const derived = (key: Uint8Array, salt: Uint8Array, info: string): Buffer => Buffer.from(hkdfSync('sha256', key, salt, info, 32))
const PKCS8 = Buffer.from('302e020100300506032b656e04220420', 'hex')
const SPKI = Buffer.from('302a300506032b656e032100', 'hex')

function opened(key: Buffer, nonce: Buffer, sealed: Uint8Array): Buffer {
  const decipher = createDecipheriv('chacha20-poly1305', key, nonce, { authTagLength: 16 })
  decipher.setAuthTag(sealed.subarray(-16))
  return Buffer.concat([decipher.update(sealed.subarray(0, -16)), decipher.final()])
}

/** The age format read without its library, with Node's own cryptography: C2SP, age-encryption.org/v1, sections "Header" and "Payload" (from memory). */
function decryptByTheBook(file: Buffer, identity: string): Buffer {
  const text = file.toString('latin1')
  const end = text.indexOf('\n', text.indexOf('\n---') + 1)
  const [version, stanza = '', body = ''] = text.slice(0, end).split('\n')
  expect(version).toBe('age-encryption.org/v1')
  const [arrow, type, share = ''] = stanza.split(' ')
  expect([arrow, type]).toEqual(['->', 'X25519'])
  const privateKey = createPrivateKey({ key: Buffer.concat([PKCS8, keyBytes(identity)]), format: 'der', type: 'pkcs8' })
  const ours = createPublicKey(privateKey).export({ format: 'der', type: 'spki' }).subarray(-32)
  const theirs = createPublicKey({ key: Buffer.concat([SPKI, unpadded(share)]), format: 'der', type: 'spki' })
  const shared = diffieHellman({ privateKey, publicKey: theirs })
  const wrapKey = derived(shared, Buffer.concat([unpadded(share), ours]), 'age-encryption.org/v1/X25519')
  const fileKey = opened(wrapKey, Buffer.alloc(12), unpadded(body))
  const payload = file.subarray(end + 1)
  const key = derived(fileKey, payload.subarray(0, 16), 'payload')
  const pieces: Buffer[] = []
  for (let from = 16, count = 0; from < payload.length; from += 65_552, count++) {
    const nonce = Buffer.alloc(12)
    nonce.writeUInt32BE(count, 7)
    if (from + 65_552 >= payload.length) nonce[11] = 1
    pieces.push(opened(key, nonce, payload.subarray(from, from + 65_552)))
  }
  return Buffer.concat(pieces)
}

test.each([0, 1, 65_535, 65_536, 65_537, 300_000])('%i bytes come back the same, by the library and by the book', async (length) => {
  const plain = randomBytes(length)
  writeFileSync(at('plain'), plain)
  for (const name of ['sealed', 'opened']) writeFileSync(at(name), '')
  const written = await sealFile(at('plain'), at('sealed'), [RECIPIENT])
  const sealed = readFileSync(at('sealed'))
  expect(written).toEqual({ sha256: sha256(sealed), bytes: sealed.length })
  expect(await openSealed(at('sealed'), at('opened'), [IDENTITY])).toEqual({
    sealedSha256: sha256(sealed),
    opened: { sha256: sha256(plain), bytes: length },
  })
  expect(readFileSync(at('opened')).equals(plain)).toBe(true)
  expect(decryptByTheBook(sealed, IDENTITY).equals(plain)).toBe(true)
})

test('a key pair printed elsewhere is a pair here', async () => {
  expect(await identityToRecipient(IDENTITY)).toBe(RECIPIENT)
})

test('every bit counts: turned over anywhere, the file does not open', async () => {
  writeFileSync(at('plain'), 'patients of a clinic')
  for (const name of ['sealed', 'opened']) writeFileSync(at(name), '')
  await sealFile(at('plain'), at('sealed'), [RECIPIENT])
  const sealed = readFileSync(at('sealed'))
  for (let byte = 0; byte < sealed.length; byte++) {
    const changed = Buffer.from(sealed)
    changed[byte] = (changed[byte] ?? 0) ^ (1 << (byte % 8))
    writeFileSync(at('sealed'), changed)
    await expect(openSealed(at('sealed'), at('opened'), [IDENTITY]), `byte ${byte}`).rejects.toThrow(/does not decrypt|another recipient/)
  }
})

test('either of two recipients opens it, and nobody else', async () => {
  const [one, two, none] = [await generateX25519Identity(), await generateX25519Identity(), await generateX25519Identity()]
  writeFileSync(at('plain'), 'x')
  for (const name of ['sealed', 'opened']) writeFileSync(at(name), '')
  await sealFile(at('plain'), at('sealed'), [await identityToRecipient(one), await identityToRecipient(two)])
  for (const identity of [one, two]) expect((await openSealed(at('sealed'), at('opened'), [identity])).opened.bytes).toBe(1)
  await expect(openSealed(at('sealed'), at('opened'), [none])).rejects.toThrow(/another recipient/)
})

test('the memory it takes does not grow with the file', async () => {
  const [small, large] = [8, 64]
  const peaks: number[] = []
  for (const mib of [small, large]) {
    writeFileSync(at('plain'), Buffer.alloc(mib * 2 ** 20))
    writeFileSync(at('sealed'), '')
    let peak = 0
    const watching = setInterval(() => {
      peak = Math.max(peak, process.memoryUsage().arrayBuffers)
    }, 5)
    await sealFile(at('plain'), at('sealed'), [RECIPIENT])
    clearInterval(watching)
    peaks.push(peak)
  }
  expect(peaks[1], `${peaks}`).toBeLessThan(48 * 2 ** 20)
})
