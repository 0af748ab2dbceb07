import Database from 'better-sqlite3'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { compareUrgency, type Placed, sortFindings, urgencyKey } from '../../lib/review/index.ts'
import { day } from '../../lib/time/index.ts'
import { finding, placed, somePatients } from './invented.ts'

const inOrder = (patients: readonly Placed[]) => patients.toSorted(compareUrgency).map((patient) => patient.course.patient.id)

test.each([
  ['by window first', { window: 'same-day', state: 'unconfirmed' }, { window: 'within-7-days', state: 'confirmed', organDamage: true }],
  ['confirmed before met', { state: 'confirmed' }, { state: 'met', organDamage: true }],
  ['met before unconfirmed', { state: 'met' }, { state: 'unconfirmed', organDamage: true }],
  ['organ damage first', { organDamage: true, since: day('2024-03-09') }, { since: day('2024-03-01') }],
  ['the longest unanswered first', { since: day('2024-03-03'), excess: 1 }, { since: day('2024-03-04'), excess: 9 }],
  ['the largest excess first', { excess: 1.6 }, { excess: 1.5 }],
] as const)('%s', (_, first, second) => {
  const [one, other] = [finding(first), finding(second)]
  expect(inOrder([placed('A', [other]), placed('B', [one])])).toEqual(['B', 'A'])
  expect(sortFindings([other, one])).toEqual([one, other])
})

test('patients alike stand by their identifier', () => {
  expect(inOrder(['P10', 'P2', 'P1'].map((id) => placed(id, [finding({})])))).toEqual(['P1', 'P10', 'P2'])
})

test('only the finding at the top places a patient', () => {
  const top = finding({ excess: 2 })
  const many = placed('B', [top, finding({ state: 'unconfirmed' }), finding({ window: 'next-visit' })])
  expect(inOrder([many, placed('A', [top])])).toEqual(['A', 'B'])
})

test('on schedule stands last: by the next due day, then by identifier, and last those for whom nothing is due', () => {
  const quiet = [placed('D', []), placed('C', [], ['2025-02-01', '2024-12-02']), placed('B', [], ['2024-12-01']), placed('A', [], ['2024-12-02'])]
  const nextVisit = placed('Z', [finding({ window: 'next-visit', state: 'unconfirmed', since: day('2024-11-30'), excess: 0.1 })])
  expect(inOrder([...quiet, nextVisit])).toEqual(['Z', 'B', 'A', 'C', 'D'])
})

test('findings alike keep the order of the rules', () => {
  const rules = ['mde-calcium', 'pd-serum', 'danger-calcium', 'overdue'] as const
  expect(sortFindings(rules.toReversed().map((rule) => finding({ rule }))).map(({ rule }) => rule)).toEqual(rules)
})

test('a place in the order is a finite number that the database takes', () => {
  fc.assert(
    fc.property(somePatients, (patients) => {
      for (const { windowRank, stateRank, organRank, excess } of patients.map(urgencyKey)) {
        expect([windowRank, stateRank, organRank].every((rank) => Number.isInteger(rank) && rank >= 0 && rank <= 9)).toBe(true)
        expect(Number.isFinite(excess)).toBe(true)
      }
    }),
  )
})

test('the database orders by the columns of the key exactly as compareUrgency does', () => {
  const db = new Database(':memory:')
  db.exec('CREATE TABLE place (window_rank INTEGER, state_rank INTEGER, organ_rank INTEGER, since TEXT, excess REAL, patient_id TEXT) STRICT')
  const insert = db.prepare('INSERT INTO place VALUES (@windowRank, @stateRank, @organRank, @since, @excess, @patientId)')
  const ordered = db.prepare<[], { id: string }>(
    'SELECT patient_id AS id FROM place ORDER BY window_rank, state_rank, organ_rank, since, excess DESC, patient_id',
  )
  fc.assert(
    fc.property(somePatients, (patients) => {
      db.exec('DELETE FROM place')
      for (const patient of patients) insert.run(urgencyKey(patient))
      expect(ordered.all().map(({ id }) => id)).toEqual(inOrder(patients))
    }),
    { numRuns: 300 },
  )
  db.close()
})

test('the order is one: whatever order they come in, they end in the same', () => {
  const shuffled = somePatients.chain((patients) =>
    fc.tuple(fc.constant(patients), fc.shuffledSubarray([...patients], { minLength: patients.length })),
  )
  fc.assert(
    fc.property(shuffled, ([patients, others]) => {
      expect(inOrder(others)).toEqual(inOrder(patients))
    }),
  )
})
