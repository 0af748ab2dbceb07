import type { Connection } from '../connection.ts'
import type { MappedRow, StoredMapping, StoredProfile } from '../read/sources.ts'
import { profileText } from '../rows/sourceProfile.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

/** A profile to be kept; the database gives it the next version of its source. */
export type NewProfile = Omit<StoredProfile, 'version'>

const PROFILE = insertSql('source_profile', ['source', 'version', 'payload', 'reason', 'made_by', 'made_at'])

/** Keeps a new version of a source's profile and returns its number. */
export function insertProfile({ statement }: Connection, { source, profile, reason, madeBy, madeAt }: NewProfile): number {
  const next = 'SELECT coalesce(max(version), 0) + 1 AS next FROM source_profile WHERE source = ?'
  const version = statement<{ next: number }>(next).get(source)?.next ?? 1
  statement(PROFILE).run(source, version, profileText(profile), reason, madeBy, madeAt)
  return version
}

/** A mapping to be kept; the database gives it the next number. */
export type NewMapping = Omit<StoredMapping, 'id' | 'revoked'>

const MAPPING = insertSql('source_mapping', [
  'id',
  'source',
  'kind',
  'received',
  'of_code',
  'meaning',
  'reason',
  'made_by',
  'made_at',
  'confirmed_by',
])

/** Keeps what a text of a source means and returns its number. Throws where another mapping of that text is in force. */
export function insertMapping(connection: Connection, mapping: NewMapping): number {
  const { source, kind, received, ofCode, meaning, reason, madeBy, madeAt, confirmedBy } = mapping
  const id = nextId(connection, 'source_mapping')
  connection.statement(MAPPING).run(id, source, kind, received, ofCode, meaning, reason, madeBy, madeAt, confirmedBy)
  return id
}

/** Who takes a mapping back, when and why. */
export interface Revocation {
  readonly mappingId: number
  readonly by: string
  readonly at: string
  readonly reason: string
}

const REVOKE = 'UPDATE source_mapping SET revoked_by = ?, revoked_at = ?, revoked_reason = ? WHERE id = ? AND revoked_at IS NULL'

/** Takes a mapping out of force. False where it is not in force, so that two people cannot both revoke it. */
export function revokeMapping({ statement }: Connection, { mappingId, by, at, reason }: Revocation): boolean {
  return statement(REVOKE).run(by, at, reason, mappingId).changes === 1
}

/** That a row was filed with a mapping. */
export interface MappingUse extends MappedRow {
  readonly mappingId: number
}

/** Keeps which mappings rows were filed with; of what is kept already, nothing again. */
export function insertMappingUses({ insertMissing }: Connection, uses: readonly MappingUse[]): void {
  const cells = uses.map(({ mappingId, fileId, line, patientId }) => [mappingId, fileId, line, patientId])
  insertMissing('mapping_use', ['mapping_id', 'file_id', 'line', 'patient_id'], cells)
}
