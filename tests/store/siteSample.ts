import { createHash } from 'node:crypto'
import type pg from 'pg'
import { DECISION_OF, RESULT_OF } from './serverSample.ts'

const AT = "'2026-01-01T00:00:00.000Z'"
const DAY = "'2026-01-01'"
const HEX = (sign: string, length: number): string => `'${sign.repeat(length)}'`

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')

/** Keeps a file with this text and answers its number. */
export async function keepFile(client: pg.Client, text: string): Promise<number> {
  await client.query('INSERT INTO intake_file_bytes (sha256, bytes) VALUES ($1, $2) ON CONFLICT DO NOTHING', [sha256(text), Buffer.from(text)])
  const sql = `INSERT INTO intake_file (name, sha256, byte_count, received_at, received_by) VALUES ('f.csv', $1, 0, ${AT}, 'a') RETURNING id::int AS id`
  return (await client.query<{ id: number }>(sql, [sha256(text)])).rows[0]?.id ?? 0
}

export const patientOf = (id: string, fileId: number): string =>
  `INSERT INTO patient (id, birth_date, sex, status, file_id, line) VALUES ('${id}', '1960', 'female', 'followed', ${fileId}, 2)`

export const resultOf = (patientId: string, name: string, fileId: number): string =>
  RESULT_OF(patientId, `["${patientId}","${name}"]`).replace('(SELECT min(id) FROM intake_file)', String(fileId))

export const heldOf = (fileId: number, patientId: string | null): string =>
  `INSERT INTO held_row (file_id, line, kind, patient_id, reason, sentence, row, fields, received_at, received_on)
  VALUES (${fileId}, 3, 'results', ${patientId === null ? 'NULL' : `'${patientId}'`}, 'unknown-code', 's', 'r', '{}', ${AT}, ${DAY})`

/** As a role: a file, two patients, and at least one row in every table that tells of a patient or a file. `sign` is one hexadecimal digit. */
export async function fillSite(client: pg.Client, name: string, sign: string): Promise<void> {
  const file = await keepFile(client, `the file of ${name}`)
  const [one, two] = [`${name}-1`, `${name}-2`]
  const statements = [
    patientOf(one, file),
    patientOf(two, file),
    resultOf(one, 'a', file),
    `INSERT INTO intake_file_chunk (sha256, number, bytes) VALUES ('${sha256(`the file of ${name}`)}', 1, 'x')`,
    `INSERT INTO hl7_message (sending_application, sending_facility, control_id, sha256, file_id, accepted_at)
      VALUES ('${name}', 'f', '1', '${sha256(`the file of ${name}`)}', ${file}, ${AT})`,
    `INSERT INTO refused_row (file_id, line, reason, sentence, row) VALUES (${file}, 4, 'r', 's', 'r')`,
    heldOf(file, null),
    `INSERT INTO held_choice (held_id, alike, remember, patient_id, reason, proposed_by, proposed_at)
      SELECT max(id), 0, 0, '${one}', 'said so', 'a', ${AT} FROM held_row WHERE file_id = ${file}`,
    `INSERT INTO patient_version (patient_id, version, row, replaced_at) VALUES ('${one}', 1, '{}', ${AT})`,
    `INSERT INTO course_event (patient_id, identity, version, current, on_day, event, payload, file_id, line)
      VALUES ('${one}', '["${one}","diagnosis"]', 1, 1, ${DAY}, 'diagnosis', '{}', ${file}, 5)`,
    `INSERT INTO source_mapping (source, kind, received, meaning, reason, made_by, made_at, confirmed_by)
      VALUES ('${name}', 'patient', 'x', '${one}', 'said so', 'a', ${AT}, 'b')`,
    `INSERT INTO mapping_use (mapping_id, file_id, line, patient_id) SELECT max(id), ${file}, 2, '${one}' FROM source_mapping`,
    'INSERT INTO mapping_return (mapping_id, file_id, line, patient_id) SELECT mapping_id, file_id, line, patient_id FROM mapping_use',
    `INSERT INTO mapped_repeat (result_id, file_id, line) SELECT max(id), ${file}, 2 FROM result`,
    `INSERT INTO version_taken_back (course_event_id, mapping_id, taken_by, taken_at)
      SELECT max(course_event.id), max(source_mapping.id), 'a', ${AT} FROM course_event, source_mapping`,
    `INSERT INTO standing (patient_id, history_revision, followed, rules_version, plan_version, evaluated_on, window_rank, state_rank, organ_rank, excess,
      phase, "window", answer) VALUES ('${one}', 0, 1, 'r', 'p', ${DAY}, 0, 0, 0, 0, 'active', 'same-day', '{}')`,
    `INSERT INTO standing_finding (patient_id, rule) VALUES ('${one}', 'r')`,
    `INSERT INTO standing_open (patient_id, key, topic, handed) VALUES ('${one}', ${HEX(sign, 32)}, 't', 0)`,
    `INSERT INTO standing_back_to (name, patient_id) VALUES ('a', '${one}')`,
    `INSERT INTO on_list (patient_id, topic, seen_on) VALUES ('${one}', 't', ${DAY})`,
    DECISION_OF(one),
    `INSERT INTO finding_change (patient_id, made_at, made_on, what, rule, finding_key, told_before, corrections, decisions)
      VALUES ('${one}', ${AT}, ${DAY}, 'removed', 'r', '{}', '{}', '[[1,2]]', '[]')`,
    `INSERT INTO emergency_view (opened_by, session_hash, patient_id, reason, from_at, until_at)
      VALUES ('a', 's', '${one}', 'an emergency', ${AT}, '2026-01-01T00:10:00.000Z')`,
    `INSERT INTO patient_sheet (patient_id, revision, record_ids, content, content_sha256, released_by, released_at)
      VALUES ('${one}', 0, '["${one}"]', '{}', ${HEX(sign, 64)}, 'a', ${AT})`,
    `INSERT INTO course_change (patient_id, kind, made_at, made_on, made_by, text, told, care, began_on)
      VALUES ('${one}', 'care-changed', ${AT}, ${DAY}, 'a', 'said so', '{}', 'maintenance', ${DAY})`,
    `INSERT INTO assignment (patient_id, account_id, made_by, made_at) VALUES ('${one}', 1, 'a', ${AT})`,
    `INSERT INTO round_place (round_id, patient_id, window_rank) VALUES (1, '${one}', 0)`,
    `INSERT INTO round_finding (round_id, patient_id, key, topic) VALUES (1, '${one}', ${HEX(sign, 32)}, 't')`,
    `INSERT INTO patient_merge (from_id, into_id, proposed_by, proposed_at, reason, identity_sha256)
      VALUES ('${two}', '${one}', 'a', ${AT}, 'the same', ${HEX(sign, 64)})`,
  ]
  for (const statement of statements) await client.query(statement)
}
