import type { FollowUpPlan } from '../../../plan/index.ts'
import { type LabResult, resultIdentity } from '../../../results/index.ts'
import { assess } from '../../../standing/index.ts'
import type { Reader, StandingRow, StoredPatient, StoredVersion } from '../../../store/index.ts'
import type { Call } from '../../call.ts'
import { planInForce } from '../../plan/planInForce.ts'
import { standingRow } from '../../standing/keepStanding.ts'
import { fileReadResult, type RowAnswer } from '../fileRow.ts'
import type { Understood } from '../readRow.ts'
import { type Shelf, shelfBefore } from './shelf.ts'

/** What planning asks of the database. */
export type PlanningReader = Pick<Reader, 'lastResultId' | 'loadCounted' | 'publishedPlans' | 'versionsOfEach' | 'withResults'>

/** A row, and what becomes of it. */
export interface PlannedRow {
  readonly understood: Understood
  readonly answer: RowAnswer
}

/** What filing the rows of one patient will do, worked out before anything is locked. It holds where the patient is still as it was planned for. */
export interface PlannedFiling extends Pick<Shelf, 'versions' | 'repeats'> {
  readonly patientId: string
  /** Each row with what becomes of it. */
  readonly rows: readonly PlannedRow[]
  /** As they were when the rows were read; null where nobody has the number. */
  readonly patient: StoredPatient | null
  /** What was known of the source. */
  readonly knownAs: string
  /** The number the first version to be stored gets, as far as can be told; the standing names versions by their numbers. */
  readonly firstId: number
  /** The answer that will hold then; null where nothing changes, and where only evaluating afterwards can tell. */
  readonly standing: StandingRow | null
}

// Which file it is, is known when it is filed; no decision and no evaluation asks for it.
const NO_FILE = 0

// As the database orders them: by the moment of collection, then by number.
const inOrder = (a: LabResult, b: LabResult): number => a.collected.order - b.collected.order || a.id - b.id

/** What planning is told of all patients. */
interface Planning {
  readonly reader: PlanningReader
  readonly followUp: FollowUpPlan
  /** Those of whom results are stored: of anybody else none need be asked for. */
  readonly withResults: ReadonlySet<string>
  readonly call: Pick<Call, 'now' | 'today'>
}

/** Evaluates the history as it will be. What a later version of a stored result does to findings is kept when it is filed, and what is joined is read then. */
function standingOnce(shelf: Shelf, patient: StoredPatient, { reader, followUp, call }: Planning): StandingRow | null {
  const { id } = patient.patient
  if (shelf.versions.length === 0 || shelf.hasLater()) return null
  const loaded = reader.loadCounted(id)
  if (loaded === null || loaded.joined || loaded.history.patient.id !== id || loaded.revision !== patient.revision) return null
  const results = [...loaded.history.results, ...shelf.counted()].sort(inOrder)
  return standingRow(assess({ ...loaded.history, results }, followUp, call.today), patient.revision + 1, followUp.version)
}

type OfOne = readonly [Understood, ...Understood[]]

const isResult = ({ row }: Understood): boolean => row.kind === 'results'
const addsPatient = ({ meant }: Understood): boolean => meant.addsPatients

/** The stored versions of every result the rows tell of, by identity. */
function versionsBefore(rows: OfOne, patientId: string, { reader, withResults }: Planning): ReadonlyMap<string, readonly StoredVersion[]> {
  if (!withResults.has(patientId)) return new Map()
  const taken = rows.flatMap(({ row }) => (row.kind === 'results' && row.read.outcome === 'take' ? [row.read.value] : []))
  return reader.versionsOfEach(patientId, [...new Set(taken.map(resultIdentity))])
}

/**
 * Plans what the rows of one patient will do. `plan` is null where filing has to see them one by one: they are no results, or one of them may bring its patient.
 * `stored` is how many of them get a number, as far as can be told.
 */
function planFiling(rows: OfOne, firstId: number, planning: Planning): { readonly plan: PlannedFiling | null; readonly stored: number } {
  const [{ patientId, patient, knownAs }] = rows
  if (!rows.every(isResult) || (patient === null && rows.some(addsPatient))) {
    return { plan: null, stored: rows.filter(({ row }) => row.kind === 'results' && row.read.outcome === 'take').length }
  }
  const shelf = shelfBefore(versionsBefore(rows, patientId, planning), patientId, firstId)
  const planned = rows.flatMap((understood): PlannedRow[] => {
    const { raw, row } = understood
    const place = { fileId: NO_FILE, line: raw.line, now: planning.call.now }
    return row.kind === 'results' ? [{ understood, answer: fileReadResult(shelf, row.read, patientId, place) }] : []
  })
  // A row that waits is part of what is evaluated.
  const isHeld = planned.some(({ answer }) => answer.outcome === 'held')
  const standing = patient === null || isHeld ? null : standingOnce(shelf, patient, planning)
  const { versions, repeats } = shelf
  return { plan: { patientId, rows: planned, patient, knownAs, firstId, versions, repeats, standing }, stored: versions.length }
}

/** Rows that stand together about one patient. */
function byPatient(read: readonly Understood[]): readonly OfOne[] {
  const groups: [Understood, ...Understood[]][] = []
  for (const row of read) {
    const last = groups.at(-1)
    if (last?.[0].patientId === row.patientId) last.push(row)
    else groups.push([row])
  }
  return groups
}

/** What filing rows will do, as far as it can be planned, by the first row of each patient. */
export function planFilings(read: readonly Understood[], reader: PlanningReader, call: Call): ReadonlyMap<Understood, PlannedFiling> {
  const plans = new Map<Understood, PlannedFiling>()
  const groups = byPatient(read)
  if (groups.length === 0) return plans
  const withResults = reader.withResults(groups.flatMap(([{ patient }]) => (patient === null ? [] : [patient.patient.id])))
  const planning = { reader, followUp: planInForce(reader, call.today), withResults, call }
  let id = reader.lastResultId() + 1
  for (const rows of groups) {
    const { plan, stored } = planFiling(rows, id, planning)
    if (plan !== null) plans.set(rows[0], plan)
    id += stored
  }
  return plans
}
