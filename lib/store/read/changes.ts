import { z } from 'zod'
import type { Decision, FindingChange } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'
import { listSql } from './lists.ts'
import { resultById } from './results.ts'

/** What corrections did to findings of a patient, first change first. */
export const CHANGES = {
  columns: ['id', 'made_at', 'made_on', 'what', 'rule', 'finding_key', 'told_before', 'told_since', 'corrections', 'decisions'],
  rows: (patientId: string) => `finding_change WHERE patient_id = ${patientId} ORDER BY id`,
} as const

export interface ChangeRow {
  readonly id: number
  readonly made_at: string
  readonly made_on: string
  readonly what: FindingChange['what']
  readonly rule: string
  readonly finding_key: string
  readonly told_before: string | null
  readonly told_since: string | null
  readonly corrections: string
  readonly decisions: string
}

const PAIRS = z.array(z.tuple([z.number(), z.number()]))
const NUMBERS = z.array(z.number())

/** What corrections did to findings of one record, first change first, where it is read as one with `recordIds`. */
export function changesOf(connection: Connection, patientId: string, decisions: readonly Decision[], recordIds: readonly string[]): FindingChange[] {
  return changesIn(connection, connection.statement<ChangeRow>(listSql(CHANGES)).all(patientId), decisions, recordIds)
}

/**
 * The changes such rows hold. `recordIds` are the records read as one: what a report for a record did that is joined no longer is none of theirs. Throws
 * where a row names a result version that is not there.
 */
export function changesIn(
  connection: Connection,
  rows: readonly ChangeRow[],
  decisions: readonly Decision[],
  recordIds: readonly string[],
): FindingChange[] {
  const owners = new Set<string>()
  const result = (id: number) => {
    const stored = resultById(connection, id)
    if (stored === null) throw new Error(`A change of a finding names result ${id}, which is not stored.`)
    owners.add(stored.patientId)
    return stored.result
  }
  return rows.flatMap(({ id, made_at: at, made_on: on, what, rule, finding_key: key, told_before: before, told_since: since, ...row }) => {
    const about = NUMBERS.parse(JSON.parse(row.decisions))
    owners.clear()
    const corrections = PAIRS.parse(JSON.parse(row.corrections)).map(([replaced, by]) => ({ replaced: result(replaced), by: result(by) }))
    if ([...owners].some((owner) => !recordIds.includes(owner))) return []
    const change: FindingChange = {
      id,
      at,
      on: on as Day,
      what,
      rule,
      key,
      before,
      since,
      corrections,
      decisions: decisions.filter((decision) => about.includes(decision.id)),
    }
    return [change]
  })
}
