import { z } from 'zod'
import type { Reader } from '../../store/index.ts'
import type { Manifest } from '../backup/manifest.ts'

/** Under which keys of the settings the last answers are kept that the health check reads; each is JSON with `at` (UTC, ISO 8601). */
export const KEPT = {
  backupMade: 'backup-made',
  backupFailed: 'backup-failed',
  logVerified: 'log-verified',
  headSent: 'log-head-sent',
} as const

const AT = z.object({ at: z.iso.datetime() })
const BACKUP = AT.extend({ bytes: z.number(), encrypted: z.boolean() })
const FAILED = AT.extend({ reason: z.string() })
/** The last head that arrived elsewhere, null where none did; and the failure since, null or absent where there is none. */
const SENT = z.object({ sent: AT.nullable(), failed: AT.nullish() })
/** `firstBad`: the first row that did not fit; null or absent where all did. */
const VERIFIED = AT.extend({ firstBad: z.number().nullish() })

/** What is kept of a backup that was made. A backup is verified, its log with it, before it counts as made. */
export function keptBackup({ at, bytes, encrypted }: Manifest): z.infer<typeof BACKUP> {
  return { at, bytes, encrypted }
}

function kept<S extends z.ZodType>(reader: Reader, key: string, schema: S): z.output<S> | null {
  const text = reader.setting(key)
  if (text === null) return null
  try {
    return schema.parse(JSON.parse(text))
  } catch {
    return null
  }
}

/** The last answers, each null where there is none that can be read. */
export function lastAnswers(reader: Reader) {
  const head = kept(reader, KEPT.headSent, SENT)
  return {
    backup: kept(reader, KEPT.backupMade, BACKUP),
    failed: kept(reader, KEPT.backupFailed, FAILED),
    verified: kept(reader, KEPT.logVerified, VERIFIED),
    sent: head?.sent ?? null,
    notSent: head?.failed ?? null,
  }
}

export type LastAnswers = ReturnType<typeof lastAnswers>
