import { openStore, type Store } from '../../lib/store/index.ts'
import { acceptFiles, type Call, fillDemonstration } from '../../lib/usecases/index.ts'
import { copyOf, type FreshStore, freshUrl, storeAt } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { csv, resultRow } from './clinic.ts'

export const COHORT = 40

let filled: Promise<string> | null = null

/** A database with the invented cohort as of the tests' own day, made once a test process and only ever copied. */
async function filledUrl(): Promise<string> {
  const url = freshUrl()
  const store = await openStore(url)
  granted(await fillDemonstration(callOf(store), { patients: COHORT, years: 2, seed: 7 }))
  await store.close()
  return url
}

/** A copy of the filled database for one test. */
export async function filledStore(): Promise<FreshStore> {
  filled ??= filledUrl()
  return storeAt(copyOf(await filled))
}

/** A call of the console so many days after the tests' own day. */
export function callAfter(store: Store, days: number): Call {
  return callOf(store, 'console', new Date(Date.UTC(2026, 10, 25 + days, 10)).toISOString())
}

/** One calcium that cannot wait, for the first patient of the cohort. */
export async function takeHighCalcium(store: Store): Promise<string> {
  const [patientId = ''] = store.reader.followedPatientIds()
  const row = resultRow({ patient_id: patientId, code: '17861-6', value: '3.6', unit: 'mmol/L', collected_at: '2026-11-25', accession: 'late' })
  granted(await acceptFiles(callOf(store), [csv('late.csv', [row])], { source: null, dryRun: false }))
  return patientId
}
