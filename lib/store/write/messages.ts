import type { MessageKey } from '../../intake/index.ts'
import type { Connection } from '../connection.ts'
import type { AcceptedMessage } from '../read/messages.ts'
import { insertSql } from './insert.ts'

/** A message accepted with this change; its file is kept already. */
export interface NewAcceptedMessage extends AcceptedMessage {
  readonly key: MessageKey
  readonly acceptedAt: string
}

const MESSAGE = insertSql('hl7_message', ['sending_application', 'sending_facility', 'control_id', 'sha256', 'file_id', 'accepted_at'])

/** Remembers a message by what its sender calls it. Throws where one is called so already. */
export function insertAcceptedMessage({ statement }: Connection, { key, sha256, fileId, acceptedAt }: NewAcceptedMessage): void {
  statement(MESSAGE).run(key.application, key.facility, key.controlId, sha256, fileId, acceptedAt)
}
