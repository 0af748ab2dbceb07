import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { type Day, day } from '../../../lib/time/index.ts'
import { type Call, endRound, type ListPage, type ListQuery, openPatient, recordReview, showList, startRound } from '../../../lib/usecases/index.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, type Row, resultRow, take } from '../clinic.ts'

export const QUERY: ListQuery = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 50 }

/** A call of somebody with a role on a day, at an hour. */
export function on(store: Store, on: string, role: Role = 'navigator', hour = '10'): Call {
  return callOf(store, role, `${on}T${hour}:00:00.000Z`)
}

/** Two patients in active disease who are followed: P1 whose protein rose, and P2 whose did not. */
export async function takeTwo(store: Store, call: Call): Promise<void> {
  const values = (patient_id: string, all: readonly [on: string, value: string][]): Row[] =>
    all.map(([collected_at, value]) => resultRow({ patient_id, collected_at, value, accession: `${patient_id} ${collected_at}` }))
  await take(
    store,
    [
      csv('patients.csv', [patientRow({ family_name: 'One' }), patientRow({ patient_id: 'P2', family_name: 'Two' })]),
      csv('course.csv', [...courseRows(), ...courseRows('P2')]),
      csv('results.csv', [
        ...values('P1', [
          ['2024-01-18', '40.0'],
          ['2026-06-01', '10.0'],
        ]),
        ...values('P2', [
          ['2024-01-18', '40.0'],
          ['2026-06-01', '10.0'],
        ]),
      ]),
    ],
    { call },
  )
}

/** One more result of serum M-protein. */
export async function takeValue(call: Call, patient_id: string, collected_at: string, value: string, more: Row = {}): Promise<void> {
  const row = resultRow({ patient_id, collected_at, value, accession: `${patient_id} ${collected_at}`, ...more })
  await take(call.store, [csv(`${patient_id}-${collected_at}-${value}.csv`, [row])], { call })
}

/** Starts and ends a round on a day. Returns its number. */
export async function wholeRound(store: Store, day: string): Promise<number> {
  const { roundId } = granted(await startRound(on(store, day, 'navigator', '08')))
  granted(await endRound(on(store, day, 'navigator', '12'), { roundId }))
  return roundId
}

/** The list as it is shown. */
export async function list(call: Call, query: Partial<ListQuery> = {}): Promise<ListPage> {
  return granted(await showList(call, { ...QUERY, ...query }))
}

/** Whom the list shows, in its order. */
export async function whom(call: Call, query: Partial<ListQuery> = {}): Promise<string[]> {
  return (await list(call, query)).rows.map(({ patientId }) => patientId)
}

/** Answers everything that is open of a patient, until a day or as long as can be. */
export async function answerAll(call: Call, patientId: string, bringBackOn: Day | null = null): Promise<void> {
  const { findings } = granted(await openPatient(call, patientId))
  for (const { rule, key, answered } of findings) {
    if (answered === null) granted(await recordReview(call, { patientId, rule, key, note: 'Seen.', bringBackOn }))
  }
}

export { day }
