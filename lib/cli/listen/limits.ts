import { MOST_MESSAGE_BYTES } from '../../intake/index.ts'

/** What one listener bears. All of it is a choice of this project (ours). */
export interface ListenLimits {
  readonly messageBytes: number
  /** Connections at once; a further one is closed as it comes. */
  readonly connections: number
  /** From the first byte of a message to its last. */
  readonly messageMs: number
  /** Without any message begun. */
  readonly idleMs: number
  /** Until the sender has taken an acknowledgement from the network. */
  readonly acknowledgementMs: number
  /** Until both sides have agreed on TLS. */
  readonly handshakeMs: number
}

export const LISTEN_LIMITS: ListenLimits = {
  messageBytes: MOST_MESSAGE_BYTES,
  connections: 64,
  messageMs: 60_000,
  idleMs: 3_600_000,
  acknowledgementMs: 60_000,
  handshakeMs: 30_000,
}
