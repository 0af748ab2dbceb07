import { closeSync, fsyncSync, openSync, readFileSync, writeFileSync } from 'node:fs'
import { Decrypter, Encrypter, generateX25519Identity, identityToRecipient } from 'age-encryption'
import { NoBackup } from './refusal.ts'

const RECIPIENT = /^age1[02-9ac-hj-np-z]{58}$/
const IDENTITY = /^AGE-SECRET-KEY-1[02-9AC-HJ-NP-Z]{58}$/

/** The lines of a key file that are no comment. Throws NoBackup where it cannot be read; what stands in it is in no message. */
function linesOf(path: string): readonly string[] {
  try {
    return readFileSync(/* turbopackIgnore: true */ path, 'utf8')
      .split(/\r?\n/)
      .map((line) => line.trim())
      .filter((line) => line !== '' && !line.startsWith('#'))
  } catch (error) {
    throw new NoBackup(`The key file ${path} cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}).`)
  }
}

function holds(line: string, shape: RegExp, take: (key: string) => void): boolean {
  if (!shape.test(line)) return false
  try {
    // A mistyped character does not fit the checksum of the key (Bech32).
    take(line)
    return true
  } catch {
    return false
  }
}

function keysIn(path: string, shape: RegExp, take: (key: string) => void, what: string): readonly string[] {
  const lines = linesOf(path)
  if (lines.length === 0 || !lines.every((line) => holds(line, shape, take)))
    throw new NoBackup(`${path} is no file of ${what}: each line is one, or begins with #. Make one with: backup key FILE.`)
  return lines
}

/** Whom a backup is encrypted for: public, so that the server holds nothing that opens it. */
export function readRecipients(path: string): readonly string[] {
  return keysIn(path, RECIPIENT, (key) => new Encrypter().addRecipient(key), 'recipients (age1...)')
}

/** What opens an encrypted backup. */
export function readIdentities(path: string): readonly string[] {
  return keysIn(path, IDENTITY, (key) => new Decrypter().addIdentity(key), 'identities (AGE-SECRET-KEY-1...)')
}

/** Writes a fresh identity to a new file only its owner may read, and answers its recipient. Throws NoBackup where the file cannot be made new. */
export async function makeIdentity(path: string, now: string): Promise<string> {
  const identity = await generateX25519Identity()
  const recipient = await identityToRecipient(identity)
  try {
    const file = openSync(/* turbopackIgnore: true */ path, 'wx', 0o600)
    try {
      writeFileSync(file, `# created: ${now}\n# recipient: ${recipient}\n${identity}\n`)
      fsyncSync(file)
    } finally {
      closeSync(file)
    }
  } catch (error) {
    const taken = (error as NodeJS.ErrnoException).code === 'EEXIST'
    throw new NoBackup(
      taken ? `${path} is there already, and a key is never overwritten.` : `${path} cannot be written (${(error as NodeJS.ErrnoException).code}).`,
    )
  }
  return recipient
}
