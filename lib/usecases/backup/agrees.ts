import type { DatabaseFacts } from '../../store/index.ts'
import type { Manifest } from './manifest.ts'
import { NoBackup } from './refusal.ts'

/** Throws NoBackup where the database that was opened is not the one the manifest tells of. */
export function requireAgreement(file: string, facts: DatabaseFacts, manifest: Manifest | null): void {
  if (manifest === null) return
  const { head, rows } = facts
  if (head.sequence !== manifest.logHead.sequence || head.hash !== manifest.logHead.hash)
    throw new NoBackup(`The log in ${file} does not end where its manifest says. Use another backup.`)
  const names = new Set([...Object.keys(rows), ...Object.keys(manifest.rows)])
  const other = [...names].filter((name) => rows[name] !== manifest.rows[name])
  if (other.length > 0) throw new NoBackup(`${file} does not hold as many rows as its manifest says (${other.join(', ')}). Use another backup.`)
}
