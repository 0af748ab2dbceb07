import Database from 'better-sqlite3'
import { clinicDay } from '../../lib/usecases/index.ts'
import { placeFor, takeIn, withDatabase } from '../databases.ts'
import type { Engine } from '../engine/engine.ts'
import { manyHistories } from '../manyHistories.ts'
import { requireSameAfresh } from '../requireClean.ts'
import { ANALYTES_A_MONTH, panels } from './panels.ts'

const INVENTED = 50
const YEARS = 15

/** A cohort of so many patients, everybody evaluated, and the rows of results there are. */
export interface FilledCohort {
  /** The file it was made in, closed; and the database of the engine that is measured. */
  readonly path: string
  readonly url: string
  readonly patients: number
  readonly rows: number
}

/** Fifty invented patients come in through intake and are repeated until there are so many; the answers of all are worked out once, and must hold. */
export async function filledCohort(engine: Engine, patients: number, say: (line: string) => void): Promise<FilledCohort> {
  const path = placeFor('evaluate.db')
  const invented = Math.min(INVENTED, patients)
  await withDatabase(path, (call) => takeIn(call, panels({ patients: invented, years: YEARS, seed: 20_261_127, endsOn: clinicDay(new Date()) })))
  const rows = manyHistories(path, patients, 'without')
  const whole = patients * YEARS * 12 * ANALYTES_A_MONTH
  if (patients % invented === 0 && rows !== whole) throw new Error(`${rows} results were taken in, not ${whole}.`)
  say(`${patients} patients with ${rows} results; everybody is evaluated once ...`)
  await withDatabase(path, (call) => requireSameAfresh(call, 'filling'))
  return { path, url: await engine.ofFile(path), patients, rows }
}

/** The patients whose serum M-protein has risen, as kept by evaluating them, in order of their numbers. */
export function keptRises(path: string): readonly string[] {
  const db = new Database(path, { readonly: true })
  const ids = db.prepare("SELECT patient_id FROM standing_finding WHERE rule = 'pd-serum' ORDER BY patient_id").pluck().all() as string[]
  db.close()
  return ids
}
