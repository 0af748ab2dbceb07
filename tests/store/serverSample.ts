import type pg from 'pg'

const AT = '2026-01-01T00:00:00.000Z'
const SHA = 'a'.repeat(64)

/** Columns of one result of a patient, as a list to insert and the values. `id` is left to the database. */
export const RESULT_OF = (patientId: string, identity: string, version = 1, current = 1): string =>
  `INSERT INTO result (patient_id, identity, version, current, code, analyte, collected_at, collected_on, collected_order, status, kind,
    kept_low, printed_low, printed_unit, value_text, unit_text, file_id, line)
  VALUES ('${patientId}', '${identity}', ${version}, ${current}, '33358-3', 'serum-m-protein', '2026-01-01', '2026-01-01', 1, 'final', 'number',
    '14.2', '1.42', 'g/dL', '1.42', 'g/dL', (SELECT min(id) FROM intake_file), 2)`

/** A row of the log with this number and moment. */
export const TRAIL_OF = (sequence: number | string, at: string = AT, patientId: string | null = null): string =>
  `INSERT INTO trail (sequence, at, actor, role, action, outcome, patient_id, request_id, event, previous_hash, hash)
  VALUES (${sequence}, '${at}', 'a', 'console', 'patient-opened', 'success', ${patientId === null ? 'NULL' : `'${patientId}'`}, 'r', '{}',
    '${'0'.repeat(64)}', '${'1'.repeat(64)}')`

export const DECISION_OF = (patientId: string, change: Readonly<Record<string, string>> = {}): string => {
  const columns: Record<string, string> = {
    patient_id: `'${patientId}'`,
    kind: "'review'",
    made_at: `'${AT}'`,
    made_on: "'2026-01-01'",
    made_by: "'a'",
    text: "'seen it'",
    rule: "'r'",
    finding_key: "'{}'",
    bring_back_on: "'2026-02-01'",
    ...change,
  }
  return `INSERT INTO decision (${Object.keys(columns).join(', ')}) VALUES (${Object.values(columns).join(', ')})`
}

export const PATIENT_OF = (id: string): string =>
  `INSERT INTO patient (id, birth_date, sex, status, file_id, line) VALUES ('${id}', '1960-02-01', 'female', 'followed', (SELECT min(id) FROM intake_file), 2)`

/** A file of these bytes' digest. */
export const FILE_OF = (sha256: string = SHA): string =>
  `INSERT INTO intake_file (name, sha256, byte_count, received_at, received_by) VALUES ('results.csv', '${sha256}', 0, '${AT}', 'a')`

export const BYTES_OF = (sha256: string = SHA): string => `INSERT INTO intake_file_bytes (sha256, bytes) VALUES ('${sha256}', '')`

/** One file, two patients, two results of the first, a decision of each kind that can be pointed to, and three rows of the log, the first one old. */
export async function fillSample(client: pg.Client): Promise<void> {
  const statements = [
    BYTES_OF(),
    FILE_OF(),
    PATIENT_OF('P1'),
    PATIENT_OF('P2'),
    RESULT_OF('P1', '["P1","a"]'),
    RESULT_OF('P1', '["P1","b"]'),
    DECISION_OF('P1'),
    DECISION_OF('P1', { kind: "'exclusion'", rule: 'NULL', finding_key: 'NULL', bring_back_on: 'NULL', result_id: '2' }),
    TRAIL_OF(1, '2019-06-01T00:00:00.000Z'),
    TRAIL_OF(2),
    TRAIL_OF(3),
  ]
  for (const statement of statements) await client.query(statement)
}
