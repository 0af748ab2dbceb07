import type { RuleId } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'
import type { OpenFinding } from '../rows/openFinding.ts'
import { STANDING_COLUMNS, type StandingRow } from '../rows/standing.ts'
import { IS_JOINED } from './merges.ts'

const FIELDS = Object.entries(STANDING_COLUMNS)
  .map(([column, field]) => `${column} AS ${field}`)
  .join(', ')
const RULES = 'SELECT rule FROM standing_finding WHERE patient_id = ? ORDER BY rule'
const OPEN = 'SELECT key, topic, answered_at AS answeredAt, back, handed FROM standing_open WHERE patient_id = ? ORDER BY key'
const BACK_TO = 'SELECT name FROM standing_back_to WHERE patient_id = ? ORDER BY name'

/** The open findings of a patient, in order of their keys. */
export function openFindingsOf({ statement }: Connection, patientId: string): OpenFinding[] {
  return statement<OpenFinding>(OPEN).all(patientId)
}

type Columns = Omit<StandingRow, 'rules' | 'open' | 'comesBackTo' | 'followed'> & { readonly followed: number }

/** The standing kept for a patient; null where none is. */
export function standingOf(connection: Connection, patientId: string): StandingRow | null {
  const { statement } = connection
  const row = statement<Columns>(`SELECT ${FIELDS} FROM standing WHERE patient_id = ?`).get(patientId)
  if (row === undefined) return null
  return {
    ...row,
    followed: row.followed === 1,
    rules: statement<{ rule: RuleId }>(RULES)
      .all(patientId)
      .map(({ rule }) => rule),
    open: openFindingsOf(connection, patientId),
    comesBackTo: statement<{ name: string }>(BACK_TO)
      .all(patientId)
      .map(({ name }) => name),
  }
}

/** Every standing, by patient. */
export function allStandings(connection: Connection): StandingRow[] {
  const ids = connection.statement<{ id: string }>('SELECT patient_id AS id FROM standing ORDER BY patient_id').all()
  return ids.flatMap(({ id }) => standingOf(connection, id) ?? [])
}

/** What a standing has to agree with. */
export interface Versions {
  readonly today: Day
  readonly rulesVersion: string
  readonly planVersion: string
}

// Each part is a range of an index that is empty as a rule: nobody's standing is read to learn that it holds. `standing_behind` is kept by triggers.
const STALE = `WITH asked (rules, plan, today) AS (SELECT CAST(? AS TEXT), CAST(? AS TEXT), CAST(? AS TEXT))
  SELECT patient.id FROM patient WHERE NOT ${IS_JOINED} AND patient.id IN (
    SELECT patient_id FROM standing_behind
    UNION ALL SELECT patient_id FROM standing WHERE rules_version < (SELECT rules FROM asked)
    UNION ALL SELECT patient_id FROM standing WHERE rules_version > (SELECT rules FROM asked)
    UNION ALL SELECT patient_id FROM standing WHERE rules_version = (SELECT rules FROM asked) AND plan_version < (SELECT plan FROM asked)
    UNION ALL SELECT patient_id FROM standing WHERE rules_version = (SELECT rules FROM asked) AND plan_version > (SELECT plan FROM asked)
    UNION ALL SELECT patient_id FROM standing WHERE rules_version = (SELECT rules FROM asked) AND plan_version = (SELECT plan FROM asked)
      AND evaluated_on > (SELECT today FROM asked)
    UNION ALL SELECT patient_id FROM standing WHERE holds_until < (SELECT today FROM asked)
  ) ORDER BY patient.id`

/** Patients whose kept answer no longer holds on a day: none kept, history or versions moved on, or the day is outside its span. */
export function staleStandings({ statement }: Connection, { today, rulesVersion, planVersion }: Versions): string[] {
  return statement<{ id: string }>(STALE)
    .all(rulesVersion, planVersion, today)
    .map((row) => row.id)
}
