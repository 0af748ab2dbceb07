import { interpretPatient, interpretResult, patientIdOf } from '../../intake/index.ts'
import { resultIdentity } from '../../results/index.ts'
import type { HeldRow, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { fileRow, nextVersion, storeVersion } from '../intake/fileRow.ts'
import { keepMappings } from '../intake/keepMappings.ts'
import { meantHeld } from '../intake/releaseHeld.ts'

/** What came of a row a person decided on. `addedPatient`: its patient was made with it. */
export type Attempt =
  | { readonly filed: true; readonly patientId: string; readonly addedPatient?: true }
  | { readonly filed: false; readonly sentence: string }

/** Files a result that conflicts with a stored one as its correction, and one whose original never came as the first version. */
function overruleResult(tx: Tx, held: HeldRow, call: Call): Attempt {
  const meant = meantHeld(tx, held)
  const patient = tx.patient(patientIdOf(meant.raw))?.patient ?? null
  const read = interpretResult(meant.raw, patient, call.today)
  if (read.outcome !== 'take') return { filed: false, sentence: read.sentence }
  const versions = tx.versionsOf(resultIdentity(read.value))
  const stored = versions.filter(({ takenBack }) => !takenBack).map(({ result }) => result)
  const version = nextVersion(versions.map(({ result }) => result))
  const incoming = stored.length === 0 ? read.value : { ...read.value, status: 'corrected' as const }
  storeVersion(tx, incoming, version, stored, { fileId: held.fileId, line: held.line, now: call.now })
  keepMappings(tx, meant, { outcome: 'filed', patientId: incoming.patientId }, held)
  return { filed: true, patientId: incoming.patientId }
}

/** Files a patient's row whose birth date or sex differs: what it says replaces what was known, which is kept as the version before. */
function overrulePatient(tx: Tx, held: HeldRow, call: Call): Attempt {
  const { raw } = meantHeld(tx, held)
  const known = tx.patient(patientIdOf(raw))?.patient ?? null
  const told = interpretPatient(raw, null, call.today)
  if (told.outcome !== 'take') return { filed: false, sentence: told.sentence }
  const { birthDate, sex } = told.value
  const read = interpretPatient(raw, known === null ? null : { ...known, birthDate, sex }, call.today)
  const filed = fileRow(tx, { kind: 'patients', read }, told.value.id, { fileId: held.fileId, line: held.line, now: call.now })
  return 'sentence' in filed ? { filed: false, sentence: filed.sentence } : { filed: true, patientId: filed.patientId }
}

// What a person may decide against: which of two reports counts, and which of two rows is right about a person. A unit, a code, a number or a person
// that could not be read is never decided by saying so.
const OVERRULE: Readonly<Record<string, typeof overruleResult>> = {
  'conflicting-value': overruleResult,
  'correction-before-original': overruleResult,
  'birth-date-differs': overrulePatient,
  'sex-differs': overrulePatient,
}

// A result says in passing who it is about: that it names somebody else is no reason to change what is known of the patient.
const isOfAnotherPerson = ({ kind }: HeldRow, reason: string): boolean => kind === 'results' && OVERRULE[reason] === overrulePatient

/** Decides in favour of a held row, where that is a person's to decide; null where it is not. */
export function overrule(tx: Tx, held: HeldRow, reason: string, call: Call): Attempt | null {
  return Object.hasOwn(OVERRULE, reason) && !isOfAnotherPerson(held, reason) ? (OVERRULE[reason]?.(tx, held, call) ?? null) : null
}
