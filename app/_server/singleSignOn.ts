import 'server-only'
import { type OpenIdSettings, readOpenIdSettings } from './openIdSettings.ts'

let kept: OpenIdSettings | null | undefined

/** The clinic's single sign-on, read once in a process; null where it has none. Throws where it is set wrongly, which the start refuses. */
export function singleSignOn(): OpenIdSettings | null {
  if (kept !== undefined) return kept
  const read = readOpenIdSettings()
  if ('problem' in read) throw new Error(read.problem)
  kept = read.settings
  return kept
}
