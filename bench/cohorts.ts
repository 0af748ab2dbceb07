import { clinicDay, renewStandings, showList } from '../lib/usecases/index.ts'
import { inventCohort } from '../seed/index.ts'
import { copyDatabase, placeFor, takeIn, withDatabase } from './databases.ts'
import type { Engine } from './engine/engine.ts'
import { manyHistories } from './manyHistories.ts'
import { FIRST_PAGE } from './reviewList.ts'

const YEARS = 2

/** Two clinics of one make: the patients who came in through intake, and so many of their like. Everybody's answer holds today. */
export interface Cohorts {
  readonly small: { readonly patients: number; readonly url: string }
  readonly large: { readonly patients: number; readonly url: string }
}

/** Invented patients come in through intake; a copy of that database has them repeated until there are so many, and everybody evaluated. */
export async function twoCohorts(engine: Engine, small: number, large: number, say: (line: string) => void): Promise<Cohorts> {
  const [few, many] = [placeFor('few.db'), placeFor('many.db')]
  const { files } = inventCohort({ patients: small, years: YEARS, seed: 20_261_128, endsOn: clinicDay(new Date()) })
  await withDatabase(few, async (call) => {
    await takeIn(call, files)
    await showList(call, FIRST_PAGE)
  })
  copyDatabase(few, many)
  const rows = manyHistories(many, large, 'without')
  say(`${large} patients with ${rows} results; everybody is evaluated once ...`)
  const patients = await withDatabase(many, async (call) => {
    await renewStandings(call)
    return call.store.reader.patientIds().length
  })
  return { small: { patients: small, url: await engine.ofFile(few) }, large: { patients, url: await engine.ofFile(many) } }
}
