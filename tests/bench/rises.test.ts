import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { risesInArrays } from '../../bench/evaluate/inArrays.ts'
import { RISES_IN_SQLITE } from '../../bench/evaluate/risesInSql.ts'

/** Hundredths of a g/L, a sample a month; the line begins on the day of the first. */
const COURSES: readonly (readonly [shows: boolean, says: string, values: readonly number[]])[] = [
  [true, 'five above ten', [2000, 1000, 1500]],
  [false, 'one step below five above ten', [2000, 1000, 1499]],
  [true, 'a quarter above 25', [4000, 2500, 3125]],
  [false, 'one step below a quarter above 25', [4000, 2500, 3124]],
  [true, 'ten above 50, where a quarter would be 12.5', [6000, 5000, 6000]],
  [false, 'one step below ten above 50', [6000, 5000, 5999]],
  [false, 'a rise that is over', [2000, 1000, 1600, 1100]],
  [false, 'one sample alone', [2000]],
]

test('a loop and SQLite, as the bench asks them, find a rise from its level on and not one step below', () => {
  const db = new Database(':memory:')
  db.exec(`CREATE TABLE result (patient_id, collected_on, kept_low, current, status, analyte, kind);
    CREATE TABLE course_event (patient_id, on_day, current, event)`)
  const [row, line] = [
    db.prepare("INSERT INTO result VALUES (?, ?, ?, 1, 'final', 'serum-m-protein', 'number')"),
    db.prepare("INSERT INTO course_event VALUES (?, '2026-01-05', 1, 'line-start')"),
  ]
  for (const [, says, values] of COURSES) {
    line.run(says)
    // Before the window of comparison: a lower value that must not count.
    row.run(says, '2025-06-05', '1')
    for (const [month, value] of values.entries()) row.run(says, `2026-0${month + 1}-05`, String(value / 100))
  }
  const expected = COURSES.filter(([shows]) => shows).map(([, says]) => says)
  expect(db.prepare(RISES_IN_SQLITE).pluck().all()).toEqual(expected.toSorted())
  db.close()
  const begins = Int32Array.from([0, ...COURSES.map((_, at) => COURSES.slice(0, at + 1).reduce((sum, [, , values]) => sum + values.length, 0))])
  const arrays = { ids: COURSES.map(([, says]) => says), values: Int32Array.from(COURSES.flatMap(([, , values]) => [...values])), begins }
  expect(risesInArrays(arrays).map((at) => arrays.ids[at])).toEqual(expected)
})
