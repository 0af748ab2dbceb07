import { createHash } from 'node:crypto'

/** The identifier of a resource by what it stands for. */
export type ResourceIds = (kind: string, name: string | number) => string

/**
 * Identifiers for one patient's resources: UUIDs (RFC 9562, version 8) made of a digest of the database's own random identity, the patient and the thing. The
 * same thing has the same identifier whenever it is exported, and without the database it tells nothing.
 */
export function resourceIds(databaseId: string, patientId: string): ResourceIds {
  return (kind, name) => {
    const digest = createHash('sha256')
      .update(JSON.stringify([databaseId, patientId, kind, name]))
      .digest('hex')
    const variant = '89ab'[Number.parseInt(digest.charAt(16), 16) % 4]
    return `${digest.slice(0, 8)}-${digest.slice(8, 12)}-8${digest.slice(13, 16)}-${variant}${digest.slice(17, 20)}-${digest.slice(20, 32)}`
  }
}
