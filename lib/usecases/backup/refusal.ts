import type { Outcome } from '../call.ts'

/** A backup was not made, or a file is none. The message is the whole sentence for the person at the command line: what is wrong and what to do. */
export class NoBackup extends Error {
  override readonly name = 'NoBackup'
}

export function invalid(reason: string): Extract<Outcome<never>, { ok: false }> {
  return { ok: false, kind: 'invalid', reason }
}

/** What is for the machine's keeper alone is refused to everybody else. */
export function consoleOnly(role: string): Extract<Outcome<never>, { ok: false }> | null {
  return role === 'console' ? null : { ok: false, kind: 'not-allowed', reason: 'Backups are made from the command line.' }
}
