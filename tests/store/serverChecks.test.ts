import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { type MigratedServer, migratedServer, SERVER } from './migratedServer.ts'
import { BYTES_OF, DECISION_OF, FILE_OF, fillSample, PATIENT_OF, RESULT_OF, TRAIL_OF } from './serverSample.ts'

const ZEROS = '0'.repeat(64)
const RETIRE = (first: number, last: number, at: string, firstHash = ZEROS): string =>
  `INSERT INTO log_range (first_sequence, last_sequence, row_count, previous_hash, last_hash, file_sha256, retired_by, retired_at)
  VALUES (${first}, ${last}, ${last - first + 1}, '${firstHash}', '${'1'.repeat(64)}', '${'a'.repeat(64)}', 'a', '${at}')`

const MERGE = `INSERT INTO patient_merge (from_id, into_id, proposed_by, proposed_at, reason, identity_sha256)
  VALUES ('P1', 'P2', 'anna', '2026-01-01T00:00:00.000Z', 'the same', '${'a'.repeat(64)}')`
const CONFIRM = (by: string): string =>
  `UPDATE patient_merge SET decision = 'confirmed', decided_by = '${by}', decided_at = '2026-01-02T00:00:00.000Z'`
const TAKEN = (column: string, id: number): string =>
  `INSERT INTO source_mapping (source, kind, received, meaning, reason, made_by, made_at)
    VALUES ('s', 'code', 'x', '33358-3', 'told so', 'a', '2026-01-01T00:00:00.000Z');
  INSERT INTO version_taken_back (${column}, mapping_id, taken_by, taken_at) VALUES (${id}, 1, 'a', '2026-01-01T00:00:00.000Z')`
const STANDING = (excess: string): string =>
  `INSERT INTO standing (patient_id, history_revision, followed, rules_version, plan_version, evaluated_on, window_rank, state_rank, organ_rank, excess,
    phase, "window", answer) VALUES ('P1', 0, 1, 'r', 'p', '2026-01-01', 0, 0, 0, ${excess}, 'active', 'same-day', '{}')`

const GUARD = 'LM001'
const CHECK = '23514'
const UNIQUE = '23505'
const NOTHING = '23503'
const NO_NUMBER = '22P02'

describe.skipIf(SERVER === undefined)('PostgreSQL', () => {
  let server: MigratedServer
  beforeAll(async () => {
    server = await migratedServer()
    await fillSample(server.client)
  })
  afterAll(() => server.dispose())
  beforeEach(() => server.client.query('BEGIN'))
  afterEach(() => server.client.query('ROLLBACK'))

  test.each([
    ['a changed log row', "UPDATE trail SET actor = 'x'", GUARD, 'the log is append-only: a row is never changed'],
    ['a removed log row', 'DELETE FROM trail', GUARD, 'the log is append-only: a row is never removed'],
    ['an emptied log', 'TRUNCATE trail', GUARD, 'trail is never emptied'],
    ['a log row after a gap', TRAIL_OF(5), GUARD, 'the log is append-only: a row follows the last one'],
    ['a log row in place of another', TRAIL_OF(2), GUARD, 'the log is append-only: a row follows the last one'],
    ['two log rows out of order in one statement', `${TRAIL_OF(5)}, (4${TRAIL_OF(4).split('VALUES (4')[1]}`, GUARD, 'a row follows the last one'],
    ['a log row of no JSON', TRAIL_OF(4).replace("'{}'", "'{'"), CHECK, 'trail_event_check'],
    ['retiring what is younger than six years', RETIRE(1, 1, '2025-05-31T23:59:59.999Z'), GUARD, 'the log is kept for six years'],
    ['retiring the last row', RETIRE(1, 3, '2033-01-01T00:00:00.000Z'), GUARD, 'the last row of the log is never retired'],
    ['retiring from the middle', RETIRE(2, 2, '2033-01-01T00:00:00.000Z'), GUARD, 'a retired range of the log follows the last one'],
    ['retiring with another hash', RETIRE(1, 1, '2026-01-01T00:00:00.000Z', '2'.repeat(64)), GUARD, 'with the hashes it has in the log'],
    ['a changed decision', "UPDATE decision SET text = 'other'", GUARD, 'a decision is never changed'],
    ['a removed decision', 'DELETE FROM decision', GUARD, 'a decision is never removed'],
    ['a decision after a gap', DECISION_OF('P1', { id: '9' }), GUARD, 'it follows the last one'],
    ['a review of what was not handed over', DECISION_OF('P1', { handover_id: '1' }), GUARD, 'only a handover'],
    [
      'a decision on a result that is not there',
      DECISION_OF('P1', { kind: "'exclusion'", rule: 'NULL', finding_key: 'NULL', bring_back_on: 'NULL', result_id: '77' }),
      NOTHING,
      'there is no result 77',
    ],
    ['a version taken back that is not there', TAKEN('result_id', 77), NOTHING, 'there is no result 77'],
    ['the removal of a result that is pointed to', 'DELETE FROM result WHERE id = 2', NOTHING, 'result 2 violates foreign key constraint'],
    ['another number for a result that is pointed to', 'UPDATE result SET id = 9 WHERE id = 2', NOTHING, 'result 2 violates foreign key constraint'],
    ['emptied results', 'TRUNCATE result', GUARD, 'result is never emptied'],
    ['an emptied part of the results', 'TRUNCATE result_03', GUARD, 'result_03 is never emptied'],
    [
      'a version that counts again after it was taken back',
      `${TAKEN('result_id', 1)}; UPDATE result SET current = 1 WHERE id = 1`,
      GUARD,
      'never counts again',
    ],
    ['a result of nobody', RESULT_OF('P9', '["P9","a"]'), NOTHING, 'patient'],
    ['two current versions', RESULT_OF('P1', '["P1","a"]', 2), UNIQUE, 'identity'],
    ['one version twice', RESULT_OF('P1', '["P1","a"]', 1, 0), UNIQUE, 'identity'],
    [
      'the number of another result',
      RESULT_OF('P2', '["P2","a"]').replace('result (', 'result (id, ').replace('VALUES (', 'VALUES (1, '),
      UNIQUE,
      'stored already',
    ],
    ['an identity that names another patient', RESULT_OF('P2', '["P1","c"]'), CHECK, 'check'],
    ['an identity two patients have', `${RESULT_OF('P1', 'plain')}; ${RESULT_OF('P2', 'plain', 2, 0)}`, UNIQUE, 'an identity is of one patient'],
    ['a bad day', "UPDATE result SET collected_on = '1.1.2026'", CHECK, 'collected_on'],
    ['a day with something behind it', "UPDATE result SET collected_on = E'2026-01-01\\n'", CHECK, 'collected_on'],
    ['a number with an exponent', "UPDATE result SET kept_low = '1e3'", CHECK, 'kept_low'],
    ['a number without its printed form', 'UPDATE result SET printed_low = NULL', CHECK, 'result'],
    ['text where a number belongs', "UPDATE result SET line = 'x'", NO_NUMBER, 'bigint'],
    ['a bad digest', BYTES_OF('A'.repeat(64)), CHECK, 'sha256'],
    ['a file of bytes that are not there', FILE_OF('b'.repeat(64)), NOTHING, 'intake_file'],
    ['counts that do not add up', 'UPDATE intake_file SET rows_in_file = 3, rows_read = 3, filed = 1', CHECK, 'intake_file'],
    ['an infinite place in the order', STANDING("'Infinity'"), CHECK, 'excess'],
    ['a place in the order that is no number', STANDING("'NaN'"), CHECK, 'excess'],
    [
      'the same account in other letters',
      "INSERT INTO account (name, role, created_at) SELECT n, 'quality', '2026-01-01T00:00:00Z' FROM unnest(ARRAY['Anna', 'aNNA']) AS n",
      UNIQUE,
      'account_name',
    ],
    ['a merge one confirms oneself', `${MERGE}; ${CONFIRM('ANNA')}`, CHECK, 'patient_merge'],
    ['a merge decided on twice', `${MERGE}; ${CONFIRM('bert')}; ${CONFIRM('carl')}`, GUARD, 'never decided again'],
    ['another identity of the database', "INSERT INTO database_identity (id, code) VALUES (1, repeat('a', 32))", GUARD, 'keeps its identity'],
    ['another address of a patient', 'UPDATE patient_address SET address = random_code()', GUARD, 'never changes'],
    ['a patient added twice', PATIENT_OF('P1'), UNIQUE, 'patient'],
  ])('refuses %s', async (_, sql, code, sentence) => {
    await expect(server.client.query(sql)).rejects.toMatchObject({ code, message: expect.stringContaining(sentence) })
  })

  const value = async (sql: string): Promise<unknown> => Object.values((await server.client.query<Record<string, unknown>>(sql)).rows[0] ?? {})[0]

  test('takes what may be: the next row of the log, an old range retired with whom it showed, and nothing else gone', async () => {
    await server.client.query(TRAIL_OF('next_trail_sequence()'))
    await server.client.query("INSERT INTO trail_shown (patient_id, sequence) VALUES ('P1', 1), ('P1', 2)")
    await server.client.query(RETIRE(1, 1, '2025-06-01T00:00:00.001Z'))
    await server.client.query('DELETE FROM trail WHERE sequence = 1')
    expect(await value('SELECT string_agg(sequence::text, $$,$$ ORDER BY sequence) FROM trail')).toBe('2,3,4')
  })

  test('lets whom a retired entry tells of go with it', async () => {
    const event = '{"fromId":"P2","patients":["P3","P4"],"beside":["P5"]}'
    await server.client.query("INSERT INTO trail_shown (patient_id, sequence) SELECT 'P' || n, 4 FROM generate_series(1, 5) AS n")
    await server.client.query(TRAIL_OF(4, '2019-06-01T00:00:00.000Z', 'P1').replace("'{}'", `'${event}'`))
    await server.client.query(TRAIL_OF(5))
    await server.client.query('ALTER TABLE log_range DISABLE TRIGGER log_range_is_old_enough')
    await server.client.query(RETIRE(1, 4, '2033-01-01T00:00:00.000Z'))
    await server.client.query('DELETE FROM trail WHERE sequence <= 4')
    expect(await value('SELECT count(*)::int FROM trail_shown')).toBe(0)
  })

  test('numbers rows as SQLite does: after the highest, without a gap where something was undone', async () => {
    const numbers = async (): Promise<unknown> => value('SELECT array_agg(id::int ORDER BY id) FROM result')
    expect(await numbers()).toEqual([1, 2])
    await server.client.query('SAVEPOINT before')
    await server.client.query(RESULT_OF('P2', '["P2","z"]'))
    await server.client.query('ROLLBACK TO before')
    await server.client.query(`${RESULT_OF('P2', '["P2","x"]')}; ${RESULT_OF('P2', '["P2","y"]')}`)
    expect(await numbers()).toEqual([1, 2, 3, 4])
    await server.client.query(RESULT_OF('P2', '["P2","w"]').replace('result (', 'result (id, ').replace('VALUES (', 'VALUES (9, '))
    await server.client.query("SELECT set_config('lowmark.last_result', '4', true)")
    await server.client.query(RESULT_OF('P2', '["P2","v"]'))
    await server.client.query("SELECT set_config('lowmark.last_result', '1', true)")
    await server.client.query(`SAVEPOINT again; ${RESULT_OF('P1', '["P1","u"]')}; ROLLBACK TO again; ${RESULT_OF('P2', '["P2","u"]')}`)
    expect(await numbers()).toEqual([1, 2, 3, 4, 9, 10, 11])
    await server.client.query("INSERT INTO failed_try (address, at) SELECT 'a', '2026-01-01T00:00:00Z' FROM generate_series(1, 5)")
    expect(await value('SELECT array_agg(id::int ORDER BY id) FROM failed_try')).toEqual([1, 2, 3, 4, 5])
  })

  test('tells who is behind as SQLite does', async () => {
    const behind = async (): Promise<unknown> => value("SELECT coalesce(string_agg(patient_id, ',' ORDER BY patient_id), '') FROM standing_behind")
    expect(await behind()).toBe('P1,P2')
    await server.client.query(STANDING('1'))
    expect(await behind()).toBe('P2')
    await server.client.query("UPDATE patient SET revision = revision + 1 WHERE id = 'P1'")
    expect(await behind()).toBe('P1,P2')
    await server.client.query("UPDATE standing SET history_revision = 1 WHERE patient_id = 'P1'")
    expect(await behind()).toBe('P2')
    await server.client.query('DELETE FROM standing')
    expect(await behind()).toBe('P1,P2')
  })

  test('finds the entries of an emergency by their index', async () => {
    await server.client.query('SET LOCAL enable_seqscan = off')
    const plan = await server.client.query<{ 'QUERY PLAN': string }>("EXPLAIN SELECT 1 FROM trail WHERE json_extract(event, '$.emergencyId') = '5'")
    expect(plan.rows.map((row) => row['QUERY PLAN']).join('\n')).toContain('trail_emergency')
  })

  test.each([
    [`json_extract('{"a":{"b":"x"},"n":7}', '$.a.b')`, 'x'],
    [`json_extract('{"a":null}', '$.a')`, null],
    [`json_extract('{"a":1}', '$.b')`, null],
    [`json_extract('{"n":7}', '$.n')`, '7'],
    [`json_valid('{')`, false],
    ['json_valid(repeat($$[$$, 100000))', false],
    [`json_valid('[]')`, true],
    ['json_valid(NULL)', null],
    [`(SELECT string_agg(key || '=' || coalesce(value, '?'), ',') FROM json_each('["a",null,3]'))`, '0=a,1=?,2=3'],
    [`(SELECT string_agg(key || '=' || value, ',') FROM json_each('{"x":"y"}'))`, 'x=y'],
    ['(SELECT count(*)::int FROM json_each(NULL))', 0],
    [`json_array_length('[1,2]')::int`, 2],
    [`unixepoch('1970-01-01T00:01:00.900Z')::int`, 60],
    [`'Anna' = 'aNNA' COLLATE NOCASE`, true],
    [`'Anna' = 'Ánna' COLLATE NOCASE`, false],
  ])('answers %s', async (sql, expected) => {
    expect(await value(`SELECT ${sql}`)).toBe(expected)
  })

  test('tells rows alike by the texts received, blanks around left out', async () => {
    await server.client.query(`INSERT INTO held_row (file_id, line, kind, reason, sentence, row, fields, received_at, received_on)
      VALUES (1, 2, 'results', 'unknown-code', 's', 'r', '{"code":" X\\t"}', '2026-01-01T00:00:00Z', '2026-01-01')`)
    expect(await value('SELECT alike FROM held_row')).toBe('["X"]')
  })
})
