import type { Call, Outcome } from '../call.ts'
import { partsFor } from '../inParts.ts'
import type { Progress } from '../intake/incoming.ts'
import { type Difference, differencesOf } from './differencesOf.ts'
import { renewStandings } from './renewStandings.ts'
import { askStandingParts } from './standingPart.ts'

/** From so many patients on other processes help: below, starting them takes longer than they save. (ours) */
const HELPED_FROM = 400

export interface Recheck {
  readonly patients: number
  readonly differences: readonly Difference[]
}

/**
 * Evaluates every patient afresh and compares with what is stored, a large cohort in as many processes as the machine has processors. Whatever differs is named by
 * field. For whoever keeps the machine: the console only.
 */
export async function recheck(
  call: Call,
  onProgress: (sentence: string) => void = () => undefined,
  helpedFrom = HELPED_FROM,
): Promise<Outcome<Recheck>> {
  if (call.actor.role !== 'console') return { ok: false, kind: 'not-allowed', reason: 'Patients are evaluated afresh from the command line.' }
  await renewStandings(call, helpedFrom)
  const patientIds = call.store.reader.patientIds()
  const count = partsFor(patientIds.length, helpedFrom)
  const tell = ({ done }: Progress) => onProgress(`evaluated: ${done} of ${patientIds.length} patients`)
  const found = count > 1 ? await askStandingParts(call, 'recheck', count, tell) : await differencesOf(call, patientIds, tell)
  const differences = found.toSorted((a, b) => (a.patientId < b.patientId ? -1 : 1))
  await call.store.record(call, () => ({
    value: null,
    events: [{ action: 'rechecked', patients: patientIds.length, differences: differences.length }],
  }))
  return { ok: true, value: { patients: patientIds.length, differences } }
}
