import { z } from 'zod'
import type { Connection } from '../connection.ts'
import type { FileKind } from './held.ts'

/** Held rows that wait for one and the same decision: one source (without one: one file), kind and reason, and the same text received. */
export interface HeldGroup {
  /** The lowest number of its rows. */
  readonly heldId: number
  readonly source: string | null
  readonly fileName: string
  readonly kind: FileKind
  readonly reason: string
  readonly rows: number
  readonly patients: number
  readonly receivedOn: string
  readonly latestCollectedOn: string | null
  /** 0 its code names a dangerous analyte, 1 its code is not known, 2 another result, 3 a course, 4 a patient. */
  readonly rank: number
  /** The texts received that its rows have in common, empty ones left out. */
  readonly texts: readonly string[]
}

export interface GroupQuery {
  /** Codes of analytes whose values can be dangerous. */
  readonly dangerousCodes: readonly string[]
  readonly limit: number
  readonly offset: number
}

const TEXTS = z.array(z.string())
// What a cell is trimmed of, as text in the statement.
const WHITE = "' \t\n\r'"
const CODE = `trim(coalesce(json_extract(decided, '$.code'), json_extract(fields, '$.code'), ''), ${WHITE})`
const RANK = `CASE WHEN held_row.kind = 'patients' THEN 4 WHEN held_row.kind = 'course' THEN 3
  WHEN ${CODE} IN (SELECT value FROM json_each(?)) THEN 0 WHEN reason = 'unknown-code' THEN 1 ELSE 2 END`
const WAITING = 'FROM held_row JOIN intake_file ON intake_file.id = held_row.file_id WHERE resolved_at IS NULL'
const GROUPED = 'GROUP BY intake_file.source, CASE WHEN intake_file.source IS NULL THEN file_id END, held_row.kind, reason, alike'

const GROUPS = `SELECT min(held_row.id) AS heldId, intake_file.source, min(intake_file.name) AS fileName, held_row.kind, reason, count(*) AS rows,
  count(DISTINCT patient_id) AS patients, min(received_on) AS receivedOn, max(collected_on) AS latestCollectedOn, min(${RANK}) AS rank, alike
  ${WAITING} ${GROUPED} ORDER BY rank, latestCollectedOn DESC NULLS LAST, rows DESC, heldId LIMIT ? OFFSET ?`

/** Some groups of the queue: those that can hide a danger first, then the latest sample, then the most rows. */
export function heldGroups({ statement }: Connection, { dangerousCodes, limit, offset }: GroupQuery): HeldGroup[] {
  const rows = statement<Omit<HeldGroup, 'texts'> & { readonly alike: string }>(GROUPS).all(JSON.stringify(dangerousCodes), limit, offset)
  return rows.map(({ alike, ...group }) => ({ ...group, texts: TEXTS.parse(JSON.parse(alike)).filter((text) => text !== '') }))
}

/** How many groups and rows wait. */
export function heldCounts({ statement }: Connection): { readonly groups: number; readonly rows: number } {
  const sql = `SELECT count(*) AS groups, coalesce(sum(rows), 0) AS rows FROM (SELECT count(*) AS rows ${WAITING} ${GROUPED}) AS each_group`
  return statement<{ groups: number; rows: number }>(sql).get() ?? { groups: 0, rows: 0 }
}

const ALIKE = `FROM held_row AS one JOIN intake_file AS own ON own.id = one.file_id
  JOIN held_row AS held ON held.resolved_at IS NULL AND held.reason = one.reason AND held.kind = one.kind AND held.alike = one.alike
  JOIN intake_file AS file ON file.id = held.file_id AND file.source IS NOT DISTINCT FROM own.source AND (own.source IS NOT NULL OR file.id = own.id)
  WHERE one.id = ? AND one.resolved_at IS NULL`

/** The numbers of all rows alike one that waits, itself among them, in the order they came. */
export function heldAlike({ statement }: Connection, heldId: number): number[] {
  return statement<{ id: number }>(`SELECT held.id ${ALIKE} ORDER BY held.id`)
    .all(heldId)
    .map(({ id }) => id)
}

/** How many rows are alike one that waits, itself among them, and of how many patients. */
export function heldAlikeCounts({ statement }: Connection, heldId: number): { readonly rows: number; readonly patients: number } {
  const sql = `SELECT count(*) AS rows, count(DISTINCT held.patient_id) AS patients ${ALIKE}`
  return statement<{ rows: number; patients: number }>(sql).get(heldId) ?? { rows: 0, patients: 0 }
}
