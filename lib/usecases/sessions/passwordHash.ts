import { hash, verify } from '@node-rs/argon2'

// Argon2id (the library's default variant) with m = 19 MiB, t = 2, p = 1: OWASP Password Storage Cheat Sheet.
const PARAMETERS = { memoryCost: 19_456, timeCost: 2, parallelism: 1 }

/** The password's hash with a salt of its own, in PHC form. Equal texts in different Unicode forms are one password (NFKC). */
export function hashPassword(password: string): Promise<string> {
  return hash(password.normalize('NFKC'), PARAMETERS)
}

let nobodys: Promise<string> | null = null

/** Is this the password behind `stored`? With null the same work is done and the answer is no, so that the time tells nothing about the account. */
export async function isPassword(stored: string | null, password: string): Promise<boolean> {
  nobodys ??= hashPassword('the password of nobody')
  const matches = await verify(stored ?? (await nobodys), password.normalize('NFKC'))
  return stored !== null && matches
}
