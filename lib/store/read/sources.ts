import { NOTHING_KNOWN, type SourceKnowledge, type SourceMapping, type SourceProfile } from '../../intake/index.ts'
import type { Connection } from '../connection.ts'
import { profileOf } from '../rows/sourceProfile.ts'

/** One version of what a source's profile says. */
export interface StoredProfile {
  readonly source: string
  readonly version: number
  readonly profile: SourceProfile
  readonly reason: string
  readonly madeBy: string
  readonly madeAt: string
}

/** A mapping with who decided it, and who revoked it where somebody did. */
export interface StoredMapping extends SourceMapping {
  readonly source: string
  readonly reason: string
  readonly madeBy: string
  readonly madeAt: string
  readonly confirmedBy: string | null
  readonly revoked: { readonly by: string; readonly at: string; readonly reason: string } | null
}

type ProfileRow = Omit<StoredProfile, 'profile'> & { readonly payload: string }
const PROFILES = 'SELECT source, version, payload, reason, made_by AS madeBy, made_at AS madeAt FROM source_profile'

function storedProfile({ payload, ...row }: ProfileRow): StoredProfile {
  return { ...row, profile: profileOf(payload) }
}

/** The version of a source's profile that holds; null where nobody wrote one. */
export function profileOfSource({ statement }: Connection, source: string): StoredProfile | null {
  const row = statement<ProfileRow>(`${PROFILES} WHERE source = ? ORDER BY version DESC LIMIT 1`).get(source)
  return row === undefined ? null : storedProfile(row)
}

/** Every version of every profile, the last one of a source first. */
export function allProfiles({ statement }: Connection): StoredProfile[] {
  return statement<ProfileRow>(`${PROFILES} ORDER BY source, version DESC`).all().map(storedProfile)
}

interface MappingRow extends SourceMapping {
  readonly source: string
  readonly reason: string
  readonly madeBy: string
  readonly madeAt: string
  readonly confirmedBy: string | null
  readonly revokedBy: string | null
  readonly revokedAt: string | null
  readonly revokedReason: string | null
}

const MAPPINGS = `SELECT id, source, kind, received, of_code AS ofCode, meaning, reason, made_by AS madeBy, made_at AS madeAt, confirmed_by AS confirmedBy,
  revoked_by AS revokedBy, revoked_at AS revokedAt, revoked_reason AS revokedReason FROM source_mapping`

function storedMapping({ revokedBy: by, revokedAt: at, revokedReason: reason, ...mapping }: MappingRow): StoredMapping {
  return { ...mapping, revoked: by === null || at === null || reason === null ? null : { by, at, reason } }
}

/** Every mapping of every source, revoked ones too, the latest first. */
export function allMappings({ statement }: Connection): StoredMapping[] {
  return statement<MappingRow>(`${MAPPINGS} ORDER BY id DESC`).all().map(storedMapping)
}

/** One mapping; null where the number is nobody's. */
export function mappingById({ statement }: Connection, id: number): StoredMapping | null {
  const row = statement<MappingRow>(`${MAPPINGS} WHERE id = ?`).get(id)
  return row === undefined ? null : storedMapping(row)
}

/** Every name a file, a profile or a mapping gives a source. */
export function sourceNames({ statement }: Connection): string[] {
  const names = `SELECT source FROM intake_file WHERE source IS NOT NULL UNION SELECT source FROM source_profile UNION SELECT source FROM source_mapping`
  return statement<{ source: string }>(`${names} ORDER BY source`)
    .all()
    .map(({ source }) => source)
}

/** What came from a source: its files, when the last of them came, the rows it had held, and how many of them wait. */
export interface SourceTraffic {
  readonly source: string
  readonly files: number
  readonly rows: number
  readonly held: number
  readonly waiting: number
  readonly lastReceivedAt: string
}

const TRAFFIC = `SELECT source, count(*) AS files, sum(rows_read) AS rows, sum(held) AS held, max(received_at) AS lastReceivedAt,
  (SELECT count(*) FROM held_row JOIN intake_file AS of ON of.id = held_row.file_id
    WHERE held_row.resolved_at IS NULL AND of.source = intake_file.source) AS waiting
  FROM intake_file WHERE source IS NOT NULL GROUP BY source ORDER BY source`

/** What came from each source that a file named. */
export function sourceTraffic({ statement }: Connection): SourceTraffic[] {
  return statement<SourceTraffic>(TRAFFIC).all()
}

/** What holds of a source now. Nothing is known of a file without a source. */
export function sourceKnowledge(connection: Connection, source: string | null): SourceKnowledge {
  if (source === null) return NOTHING_KNOWN
  const profile = profileOfSource(connection, source)
  const known = connection.statement<MappingRow>(`${MAPPINGS} WHERE source = ? AND revoked_at IS NULL ORDER BY id`).all(source)
  const mappings = known.map(({ id, kind, received, ofCode, meaning }) => ({ id, kind, received, ofCode, meaning }))
  const version = `${profile?.version ?? 0}:${mappings.map(({ id }) => id).join(',')}`
  return { version, profile: profile?.profile ?? null, mappings }
}

/** A row that was filed with a mapping. */
export interface MappedRow {
  readonly fileId: number
  readonly line: number
  readonly patientId: string
}

/** The rows that were filed with a mapping, in the order of their files. */
export function rowsOfMapping({ statement }: Connection, mappingId: number): MappedRow[] {
  const select = 'SELECT file_id AS fileId, line, patient_id AS patientId FROM mapping_use WHERE mapping_id = ? ORDER BY file_id, line'
  return statement<MappedRow>(select).all(mappingId)
}
