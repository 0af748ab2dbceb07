import type { MessageKey } from '../../intake/index.ts'
import type { Connection } from '../connection.ts'

/** A message that was accepted: the file it is kept as, and the digest of its bytes. */
export interface AcceptedMessage {
  readonly fileId: number
  readonly sha256: string
}

const SELECT = `SELECT file_id AS fileId, sha256 FROM hl7_message
  WHERE sending_application = ? AND sending_facility = ? AND control_id = ?`

/** The accepted message a sender calls so; null where there is none. */
export function acceptedMessage({ statement }: Connection, { application, facility, controlId }: MessageKey): AcceptedMessage | null {
  return statement<AcceptedMessage>(SELECT).get(application, facility, controlId) ?? null
}
