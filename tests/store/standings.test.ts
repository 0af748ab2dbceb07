import { afterEach, beforeEach, expect, test } from 'vitest'
import type { StandingRow, Store } from '../../lib/store/index.ts'
import { saveStandings } from '../../lib/store/write/standing.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../usecases/clinic.ts'
import { counting } from './counting.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside } from './outside.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let kept: StandingRow
beforeEach(async () => {
  fresh = await freshStore()
  const values = [
    ['2024-01-18', '40.0'],
    ['2026-06-01', '10.0'],
    ['2026-11-02', '20.0'],
  ].map(([collected_at = '', value = '']) => resultRow({ collected_at, value, accession: collected_at }))
  await take(fresh.store, [csv('patients.csv', [patientRow()]), csv('course.csv', courseRows()), csv('results.csv', values)])
  const row = fresh.store.reader.standing('P1')
  if (row === null || row.open.length === 0) throw new Error('The sample has nothing open.')
  kept = row
})
afterEach(() => fresh.dispose())

/** Keeps a standing as a writer does, and tells how many statements that took. */
function save(row: StandingRow): number {
  const { connection, asked, close } = counting(fresh.url, { reading: false })
  try {
    connection.begin()
    const count = asked(() => saveStandings(connection, [row]))
    connection.commit()
    return count
  } finally {
    close()
  }
}

function seenOn(): Record<string, string> {
  const db = fromOutside(fresh.url, { reading: true })
  const rows = db.all<{ topic: string; seen: string }>('SELECT topic, seen_on AS seen FROM on_list ORDER BY topic')
  db.close()
  return Object.fromEntries(rows.map(({ topic, seen }) => [topic, seen]))
}

const KEY = (digit: string): string => digit.repeat(32)

test('an answer that says what is kept of it already is one question and the row itself', () => {
  expect(save({ ...kept, answer: `${kept.answer} ` })).toBe(2)
  expect(fresh.store.reader.standing('P1')).toEqual({ ...kept, answer: `${kept.answer} ` })
})

test('what came, went and changed beside a standing is kept, and since when on the list stays with what stays', () => {
  const [first, ...others] = kept.open
  if (first === undefined) throw new Error('The sample has nothing open.')
  const before = seenOn()
  const handed = { ...first, handed: 1 as const }
  const added = { key: KEY('f'), topic: 'a topic of its own', answeredAt: null, back: null, handed: 0 as const }
  const open = [handed, ...others, added].toSorted((a, b) => (a.key < b.key ? -1 : 1))
  const later: StandingRow = {
    ...kept,
    evaluatedOn: '2026-12-24' as StandingRow['evaluatedOn'],
    open,
    comesBackTo: ['a physician', 'a navigator'].toSorted(),
  }
  save(later)
  expect(fresh.store.reader.standing('P1')).toEqual(later)
  expect(seenOn()).toEqual({ ...before, [added.topic]: '2026-12-24' })

  const fewer: StandingRow = { ...later, open: [added], rules: kept.rules.slice(1), comesBackTo: ['a physician'] }
  save(fewer)
  expect(fresh.store.reader.standing('P1')).toEqual(fewer)
  expect(seenOn()).toEqual({ [added.topic]: '2026-12-24' })

  save({ ...fewer, open: [], rules: [], comesBackTo: [] })
  expect(fresh.store.reader.standing('P1')).toMatchObject({ open: [], rules: [], comesBackTo: [] })
  expect(seenOn()).toEqual({})
})

test('a finding that came back for another reason under the same key is the new one', () => {
  const answered = { key: KEY('e'), topic: 'what came back', answeredAt: '2026-11-20T08:00:00.000Z', back: 'day' as const, handed: 0 as const }
  save({ ...kept, open: [answered] })
  const again = { ...answered, answeredAt: '2026-11-24T08:00:00.000Z', back: 'evidence' as const }
  save({ ...kept, open: [again] })
  expect(fresh.store.reader.standing('P1')?.open).toEqual([again])
})
