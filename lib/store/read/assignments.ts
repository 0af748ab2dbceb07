import type { Connection } from '../connection.ts'

/** A patient given to somebody, or to nobody. Times are UTC, ISO 8601. */
export interface StoredAssignment {
  readonly id: number
  readonly patientId: string
  /** Null: nobody has the patient any more. */
  readonly account: { readonly id: number; readonly name: string; readonly disabled: boolean } | null
  readonly by: string
  readonly at: string
}

interface Columns {
  readonly id: number
  readonly patientId: string
  readonly accountId: number | null
  readonly name: string | null
  readonly disabledAt: string | null
  readonly by: string
  readonly at: string
}

const SELECT = `SELECT assignment.id, patient_id AS patientId, account_id AS accountId, account.name, disabled_at AS disabledAt, made_by AS "by", made_at AS at
  FROM assignment LEFT JOIN account ON account.id = account_id`

function assignmentOf({ accountId, name, disabledAt, ...row }: Columns): StoredAssignment {
  return { ...row, account: accountId === null || name === null ? null : { id: accountId, name, disabled: disabledAt !== null } }
}

/** The last assignment of a patient, also one to nobody; null where there never was one. */
export function lastAssignment({ statement }: Connection, patientId: string): StoredAssignment | null {
  const row = statement<Columns>(`${SELECT} WHERE patient_id = ? ORDER BY assignment.id DESC LIMIT 1`).get(patientId)
  return row === undefined ? null : assignmentOf(row)
}

/** Somebody, and how many followed patients they have. */
export interface Having {
  readonly accountId: number
  readonly name: string
  readonly disabled: boolean
  readonly patients: number
}

const HAVING_NOW = `SELECT account_id AS accountId, name, disabled_at IS NOT NULL AS disabled, count(*) AS patients
  FROM assigned JOIN account ON account.id = account_id JOIN standing USING (patient_id) WHERE followed = 1
  GROUP BY account_id, name, disabled_at ORDER BY name`

const HAVING_THEN = `WITH base (round, moment) AS (SELECT CAST(? AS BIGINT), CAST(? AS TEXT))
  SELECT account_id AS accountId, name, disabled_at IS NOT NULL AND disabled_at <= moment AS disabled, count(*) AS patients
  FROM base JOIN round_place ON round_id = round JOIN assignment USING (patient_id) JOIN account ON account.id = account_id
  WHERE made_at <= moment
    AND NOT EXISTS (SELECT 1 FROM assignment AS later WHERE later.patient_id = assignment.patient_id AND later.id > assignment.id AND later.made_at <= moment)
  GROUP BY account_id, name, disabled_at, moment ORDER BY name`

type Counted = Omit<Having, 'disabled'> & { readonly disabled: number }

/** Who has how many of those followed now, by name. */
export function havingNow({ statement }: Connection): Having[] {
  return statement<Counted>(HAVING_NOW)
    .all()
    .map((row) => ({ ...row, disabled: row.disabled === 1 }))
}

/** Who had how many of those followed when a round ended, by name. */
export function havingThen({ statement }: Connection, roundId: number, at: string): Having[] {
  return statement<Counted>(HAVING_THEN)
    .all(roundId, at)
    .map((row) => ({ ...row, disabled: row.disabled === 1 }))
}
