import type { Day } from '../time/index.ts'
import type { LogAsked } from './logAsked.ts'

/** What is logged of the log itself and of copies of the database. */
export type KeepingEvent =
  /** Entered before the copy is made, so that the copy holds it. */
  | { readonly action: 'backup-begun'; readonly encrypted: boolean }
  | {
      /** Entered when it is known whether there is one. */
      readonly action: 'backup-made'
      readonly outcome: 'success' | 'failure'
      /** Why there is none, in a word of ours or of the system; null where there is. */
      readonly reason: string | null
      readonly bytes: number
      readonly sha256: string | null
      /** The last entry the backup holds. */
      readonly headSequence: number | null
      /** Older backups that were removed for it. */
      readonly removed: number
    }
  | {
      readonly action: 'restored'
      /** Of the database in the backup. */
      readonly sha256: string
      /** Where its log ended: what follows was not in the backup. */
      readonly headSequence: number
      readonly headHash: string
      readonly sessionsEnded: number
      readonly codesEnded: number
    }
  /** The database came from a file to a server: how many rows, and where the log of the file ended. */
  | { readonly action: 'moved-to-server'; readonly rows: number; readonly headSequence: number; readonly headHash: string }
  /** Entries by their numbers, and how their patients were told. */
  | { readonly action: 'log-exported'; readonly from: number; readonly to: number; readonly patients: 'numbers' | 'pseudonyms' | 'nobody' }
  /** Which head went, and to what kind of place: a file, or a syslog server over UDP or TCP. */
  | {
      readonly action: 'log-head-sent'
      readonly outcome: 'success' | 'failure'
      readonly sequence: number
      readonly to: 'file' | 'syslog' | 'syslog+tcp'
    }
  /** `heads`: how many heads kept elsewhere it was held against. */
  | { readonly action: 'log-verified'; readonly rows: number; readonly firstBad: number | null; readonly heads: number }
  /** The oldest entries went to a file and left the database; the hashes are those before the first and of the last of them. */
  | {
      readonly action: 'log-retired'
      readonly first: number
      readonly last: number
      readonly previousHash: string
      readonly lastHash: string
      readonly fileSha256: string
    }
  | { readonly action: 'log-read'; readonly scope: 'own' | 'all'; readonly asked?: LogAsked }
  | {
      readonly action: 'log-reviewed'
      readonly reviewId: number
      readonly from: Day
      readonly to: Day
      readonly ownEntries: number
      readonly after: string
    }
