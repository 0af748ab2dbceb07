import { expect, it } from 'vitest'
import { sqlForServer } from '../../lib/store/postgres/sqlForServer.ts'

it.each([
  ['numbers parameters, and leaves question marks in texts alone', "SELECT '?' WHERE a = ? AND b = ?", "SELECT '?' WHERE a = $1 AND b = $2"],
  [
    'quotes names that would be folded',
    'SELECT patient_id AS patientId FROM x ORDER BY patientId',
    'SELECT patient_id AS "patientId" FROM x ORDER BY "patientId"',
  ],
  ['quotes the column window', 'SELECT window, window_rank FROM standing', 'SELECT "window", window_rank FROM standing'],
  ['leaves quoted names and texts', `SELECT a AS "byWhom", 'aB' FROM x`, `SELECT a AS "byWhom", 'aB' FROM x`],
  [
    'drops what chooses an index',
    'SELECT a FROM trail INDEXED BY trail_at WHERE +actor = ? AND +at >= ?',
    'SELECT a FROM trail  WHERE actor = $1 AND at >= $2',
  ],
  ['drops what forbids one', 'SELECT a FROM result NOT INDEXED WHERE id > ?', 'SELECT a FROM result  WHERE id > $1'],
  ['leaves a sum', 'SELECT a + b, max(id) + 1, (-1)+2', 'SELECT a + b, max(id) + 1, (-1)+2'],
  ['asks for the next number of all rows', 'SELECT coalesce(max(id), 0) + 1 AS next FROM log_review', 'SELECT next_log_review_id() AS next'],
  ['names the functions of JSON', 'SELECT json_group_array(json_array(a, ?))', 'SELECT json_agg(json_build_array(a, $1))'],
])('%s', (_, sql, forServer) => {
  expect(sqlForServer(sql)).toBe(forServer)
})
