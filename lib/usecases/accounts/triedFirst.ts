import { type PasswordUse, passwordProblem } from '../../access/index.ts'

let list: Promise<ReadonlySet<string>> | null = null

function plain(password: string): string {
  return password.normalize('NFKC').toLowerCase()
}

/** About 49,000 passwords of published breaches, the most frequent first, by the library's keepers; unpacked on first use and kept. */
async function readList(): Promise<ReadonlySet<string>> {
  const { dictionary } = await import('@zxcvbn-ts/language-common')
  return new Set(dictionary['passwords-common'].map(plain))
}

/**
 * Why this password cannot be chosen, in a sentence; null when it can. Beside what `passwordProblem` knows, it is compared as a whole, whatever the
 * case, with passwords that are tried first (NIST SP 800-63B-4, 3.1.1.2: a blocklist, and the reason told).
 */
export async function choiceProblem(password: string, accountName: string, use: PasswordUse): Promise<string | null> {
  const problem = passwordProblem(password, accountName, use)
  if (problem !== null) return problem
  list ??= readList()
  if (!(await list).has(plain(password))) return null
  return 'This password is on a list of passwords from published breaches, which are the first to be tried. Choose another one.'
}
