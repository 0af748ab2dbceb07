import { readFileSync, statSync } from 'node:fs'

const LEAST_SECRET = 32
const READABLE_BY_ALL = 0o004

/** What a setting is for a secret: itself, or the path of a file that holds it. */
export interface SecretSettings {
  readonly NEXTAUTH_SECRET?: string | undefined
  readonly NEXTAUTH_SECRET_FILE?: string | undefined
}

function readFrom(path: string): string {
  let mode: number
  try {
    mode = statSync(path).mode
  } catch {
    throw new Error(`the file ${path} that NEXTAUTH_SECRET_FILE names cannot be read.`)
  }
  if ((mode & READABLE_BY_ALL) !== 0)
    throw new Error(`the file ${path} that NEXTAUTH_SECRET_FILE names can be read by everybody. Run: chmod 600 ${path}`)
  return readFileSync(path, 'utf8').trim()
}

/**
 * The secret that signs the sessions, from the setting itself or from a file, which keeps it out of what other programs can see of this one. Throws with
 * what to do where there is none, two, or one that is too short; the secret itself is in no message.
 */
export function secretOf({ NEXTAUTH_SECRET: given = '', NEXTAUTH_SECRET_FILE: file = '' }: SecretSettings): string {
  if (given !== '' && file !== '') throw new Error('NEXTAUTH_SECRET and NEXTAUTH_SECRET_FILE are both set. Keep one of them.')
  if (given === '' && file === '') {
    throw new Error(
      `the setting NEXTAUTH_SECRET or NEXTAUTH_SECRET_FILE is missing (a random text of at least ${LEAST_SECRET} characters that signs the sessions, or the path of a file with it).`,
    )
  }
  const secret = file === '' ? given : readFrom(file)
  if (secret.length < LEAST_SECRET) {
    throw new Error(`${file === '' ? 'NEXTAUTH_SECRET' : `the file ${file}`} has ${secret.length} characters; it needs at least ${LEAST_SECRET}.`)
  }
  return secret
}
