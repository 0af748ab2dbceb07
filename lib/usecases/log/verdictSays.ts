import type { HeadsCheck } from '../../trail/index.ts'
import type { ExportCheck } from './checkExport.ts'

/** What to do where a log does not hold. */
export const WHAT_TO_DO =
  'Copy the database file and the heads as they are now, before anything else is done with them; tell whoever answers for privacy; compare with the last backup (docs/log.md).'

/** Why a log does not hold against a head kept elsewhere. */
export function headFaultSays({ kind, firstBad, head }: NonNullable<HeadsCheck['fault']>): string {
  const kept = `the head kept elsewhere (entry ${head.sequence}${head.at === null ? '' : ` of ${head.at}`})`
  switch (kind) {
    case 'other-database':
      return `This is another database than the one ${kept} comes from.`
    case 'cut':
      return `The end of the log is missing: entry ${firstBad} is the first that is not there, and ${kept} was.`
    case 'rewritten':
      return `The log was written anew: somewhere from entry ${firstBad} to ${head.sequence} it is not what it was, although each entry fits the one before; ${kept} has another hash.`
  }
}

/** Why a file of exported entries does not hold. */
export function exportFaultSays(path: string, { kind, line, sequence }: NonNullable<ExportCheck['fault']>): string {
  switch (kind) {
    case 'unreadable':
      return `"${path}" does not hold: line ${line} is no entry of the log as it was written (entry ${sequence} should stand there).`
    case 'chain':
      return `"${path}" does not hold: entry ${sequence} (line ${line}) is missing or was changed.`
    case 'other-database':
      return `"${path}" does not hold: line ${line} comes from another database than the lines before it.`
    case 'not-whole':
      return `"${path}" cannot be verified: it was written for readers who are not told patients' numbers, without hashes (line ${line}).`
    case 'empty':
      return `"${path}" holds no entry.`
  }
}
