import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { type Call, changeCourse, type Outcome, takeBackChange, type WishedChange } from '../../../lib/usecases/index.ts'
import { callOf } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../clinic.ts'

export const REASON = 'Read again in the letters of that time.'

/** P1 in active disease since 2024-01-10 with one line, a serum M-protein that fell and rose, and two clinicians at work. */
export async function takeCourse(store: Store): Promise<void> {
  const serum = (collected_at: string, value: string) => resultRow({ collected_at, value, accession: `S ${collected_at}` })
  await take(store, [
    csv('patients.csv', [patientRow({ clinician: 'Dr North' }), patientRow({ patient_id: 'P2', clinician: 'Dr South' })]),
    csv('course.csv', courseRows()),
    csv('results.csv', [serum('2024-01-15', '42'), serum('2025-06-01', '8'), serum('2025-07-01', '9'), serum('2026-11-01', '11')]),
  ])
}

export const physician = (store: Store, now?: string): Call => callOf(store, 'physician', now)

export function change(
  store: Store,
  wish: WishedChange,
  { patientId = 'P1', call = physician(store), shown }: Changing = {},
): Promise<Outcome<null>> {
  return changeCourse(call, { patientId, change: wish, reason: REASON, shown })
}

interface Changing {
  readonly patientId?: string
  readonly call?: Call
  readonly shown?: string
}

export function takeBack(store: Store, changeId: number, patientId = 'P1'): Promise<Outcome<null>> {
  return takeBackChange(physician(store), { patientId, changeId, reason: 'Wrong patient after all.' })
}

export const corrected = (began: string): WishedChange => ({
  kind: 'phase-corrected',
  was: { phase: 'active', on: day('2024-01-10') },
  phase: 'active',
  began: day(began),
  stepsBack: false,
})

export const started = (began: string, regimen = 'daratumumab + lenalidomide'): WishedChange => ({
  kind: 'line-started',
  began: day(began),
  regimen,
  intent: 'relapse',
})
