import type { Actor, TrailEvent } from '../trail/index.ts'
import type { PrismaClient } from './generated/client.ts'
import type { Reader } from './reader.ts'
import type { Tx } from './tx.ts'

/** Who writes, and when (UTC, ISO 8601). */
export interface RecordCall {
  readonly actor: Actor
  readonly now: string
}

/** What a change answers, and what the log says of it: at least one event. */
export interface Change<T> {
  readonly value: T
  readonly events: readonly TrailEvent[]
  /** Who it turns out to be, where only the change itself can tell (signing in). */
  readonly actor?: Actor
}

/** The open database. */
export interface Store {
  /** What opens it again, in this process or another. */
  readonly url: string
  /** The file it lies in; of a database on a server, what stands for one on this machine: what is on its way lies beside it. */
  readonly path: string
  /** Other reads of a file; refuses writes. Null for a database on a server. */
  readonly prisma: PrismaClient | null
  /** Synchronous reads of what is committed. */
  readonly reader: Reader
  /**
   * The only way to change anything. `change` is synchronous; what it did and its log rows are committed together or not at all. Resolves after the
   * commit reached the disk. Rejects with the error of `change`, with StoreBusy when another program keeps writing, or when the log cannot be written.
   */
  record<T>(call: RecordCall, change: (tx: Tx) => Change<T>): Promise<T>
  /** Moves a session's last sign of life; it leaves no log row. */
  touchSession(id: string, at: string): Promise<void>
  /** Writes one row that says nothing but when, to see that the disk takes it; like the sign of life it leaves no log row. */
  probeWrite(at: string): Promise<void>
  /** Copies the database as it is at one moment into an empty file. Holds up this thread, and nobody else's writes. Throws NotOpened for one on a server. */
  copyTo(path: string): void
  close(): Promise<void>
}
