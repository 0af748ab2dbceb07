import { inventCohort } from '../../../seed/index.ts'
import type { Store } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { acceptFiles } from '../intake/acceptFiles.ts'
import type { Progress } from '../intake/incoming.ts'
import { inventCorrection } from './inventCorrection.ts'
import { inventCourseChanges } from './inventCourseChanges.ts'
import { inventDecisions } from './inventDecisions.ts'
import { inventSheet } from './inventSheet.ts'

const SETTING = 'demonstration'

/** True while the database holds the invented cohort: every page says so. */
export function isDemonstration(store: Store): boolean {
  return store.reader.setting(SETTING) !== null
}

/** True for a database nobody has used: no patient, no file, no account. */
export function isEmptyDatabase(store: Store): boolean {
  return store.reader.isEmpty()
}

export interface Filled {
  readonly patients: number
  readonly rows: number
  readonly held: number
  readonly refused: number
}

export interface DemonstrationWish {
  readonly patients: number
  readonly years: number
  readonly seed: number
  readonly onProgress?: (progress: Progress) => void
}

/**
 * Fills an empty database with the invented cohort, through intake like real files, with a few decisions people made about it, with two changes of a
 * course by a physician, with one correction that takes a reviewed finding back, and with one sheet a physician released. Refuses any other database: invented and real never mix.
 */
export async function fillDemonstration(call: Call, { patients, years, seed, onProgress }: DemonstrationWish): Promise<Outcome<Filled>> {
  const { store } = call
  if (call.actor.role !== 'console') return { ok: false, kind: 'not-allowed', reason: 'The invented cohort is made from the command line.' }
  if (!isEmptyDatabase(store)) return { ok: false, kind: 'invalid', reason: 'The database is not empty. Invented patients are never added to it.' }
  const { files } = inventCohort({ patients, years, seed, endsOn: call.today })
  await store.record(call, (tx) => {
    tx.setSetting(SETTING, 'invented')
    return { value: null, events: [{ action: 'demonstration-filled', patients, seed }] }
  })
  const outcome = await acceptFiles(call, files, { source: 'invented cohort', dryRun: false, ...(onProgress === undefined ? {} : { onProgress }) })
  if (!outcome.ok) return outcome
  const decided = await inventDecisions(call)
  if (!decided.ok) return decided
  const changed = await inventCourseChanges(call, decided.value)
  if (!changed.ok) return changed
  const corrected = await inventCorrection(call, changed.value)
  if (!corrected.ok) return corrected
  const sheet = await inventSheet(call)
  if (!sheet.ok) return sheet
  const sum = (part: 'rows' | 'held' | 'refused') => outcome.value.reduce((total, report) => total + report[part], 0)
  return { ok: true, value: { patients: store.reader.patientIds().length, rows: sum('rows'), held: sum('held'), refused: sum('refused') } }
}
