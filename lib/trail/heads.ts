import type { TrailHead } from './chain.ts'

/** A head of the log as it was kept elsewhere. Who wrote down number and hash alone kept neither time nor database. */
export interface KeptHead extends TrailHead {
  /** UTC, ISO 8601. */
  readonly at: string | null
  readonly databaseId: string | null
}

/** A head in one line: number, hash, time, database. */
export function headLine({ sequence, hash, at, databaseId }: KeptHead): string {
  return [String(sequence), hash, ...(at === null || databaseId === null ? [] : [at, databaseId])].join(' ')
}

// Anything may stand before it, as in the file of a syslog server.
const HEAD = /(?:^|\s)(\d{1,15})[ :]([0-9a-f]{64})(?: (\d{4}-\d\d-\d\dT[0-9:.]+Z) ([0-9a-f]{32}))?\s*$/

/** The heads in a text, one a line; lines that hold none are passed over. */
export function readHeads(text: string): readonly KeptHead[] {
  return text.split('\n').flatMap((line): KeptHead[] => {
    const [, sequence, hash, at, databaseId] = HEAD.exec(line) ?? []
    if (sequence === undefined || hash === undefined) return []
    return [{ sequence: Number(sequence), hash, at: at ?? null, databaseId: databaseId ?? null }]
  })
}

/** What heads kept elsewhere say of a log. */
export interface HeadsCheck {
  /** Heads whose row is in the log, with their hash. */
  readonly agree: number
  /** Heads whose row was retired, so that only the file it went to can answer. */
  readonly retired: number
  readonly fault: null | {
    readonly kind: 'other-database' | 'cut' | 'rewritten'
    /** The first sequence number that cannot be what it was. */
    readonly firstBad: number
    readonly head: KeptHead
  }
}

/** The log that is held against heads: its database, its last number, and the hash of a row (null: not there; undefined: retired). */
export interface LogToCompare {
  readonly databaseId: string
  readonly last: number
  readonly hashAt: (sequence: number) => string | null | undefined
}

/** Holds a log against heads kept earlier: finds a tail that was cut off, rows written anew with hashes that fit, and another database. */
export function compareHeads(heads: readonly KeptHead[], { databaseId, last, hashAt }: LogToCompare): HeadsCheck {
  const foreign = heads.find((head) => head.databaseId !== null && head.databaseId !== databaseId)
  if (foreign !== undefined) return { agree: 0, retired: 0, fault: { kind: 'other-database', firstBad: 1, head: foreign } }
  let [agree, retired, good] = [0, 0, 0]
  for (const head of heads.toSorted((a, b) => a.sequence - b.sequence)) {
    if (head.sequence > last) return { agree, retired, fault: { kind: 'cut', firstBad: last + 1, head } }
    const hash = hashAt(head.sequence)
    if (hash === undefined) retired += 1
    else if (hash === head.hash) {
      agree += 1
      good = head.sequence
    } else return { agree, retired, fault: { kind: 'rewritten', firstBad: good + 1, head } }
  }
  return { agree, retired, fault: null }
}
