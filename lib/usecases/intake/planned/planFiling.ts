import type { FollowUpPlan } from '../../../plan/index.ts'
import type { LabResult } from '../../../results/index.ts'
import { assess } from '../../../standing/index.ts'
import type { StandingRow } from '../../../store/index.ts'
import type { Call } from '../../call.ts'
import { planInForce } from '../../plan/planInForce.ts'
import { standingRow } from '../../standing/keepStanding.ts'
import { fileResult } from '../fileRow.ts'
import type { Understood } from '../readRow.ts'
import { type FilingStep, type Shelf, shelfBefore } from './shelf.ts'

/** What filing the rows of one patient will do, worked out before anything is locked. It holds where the patient is still as it was planned for. */
export interface PlannedFiling {
  readonly patientId: string
  readonly rows: number
  /** How often the history of the patient had changed. */
  readonly revision: number
  /** What was known of the source. */
  readonly knownAs: string
  /** The number the first version to be stored gets, as far as can be told; the standing names versions by their numbers. */
  readonly firstId: number
  readonly steps: readonly FilingStep[]
  readonly outcomes: Readonly<Record<'filed' | 'corrected' | 'known', number>>
  /** The answer that will hold then; null where nothing changes, and where only evaluating afterwards can tell. */
  readonly standing: StandingRow | null
}

// Which file it is, is known when it is filed; no decision and no evaluation asks for it.
const NO_FILE = 0

// As the database orders them: by the moment of collection, then by number.
const inOrder = (a: LabResult, b: LabResult): number => a.collected.order - b.collected.order || a.id - b.id

/** Evaluates the history as it will be. What a later version of a stored result does to findings is kept when it is filed, and what is joined is read then. */
function standingOnce(shelf: Shelf, patientId: string, revision: number, plan: FollowUpPlan, call: Call): StandingRow | null {
  if (shelf.stored() === 0 || shelf.hasLater()) return null
  const loaded = call.store.reader.loadCounted(patientId)
  if (loaded === null || loaded.joined || loaded.history.patient.id !== patientId || loaded.revision !== revision) return null
  const results = [...loaded.history.results, ...shelf.counted()].sort(inOrder)
  return standingRow(assess({ ...loaded.history, results }, plan, call.today), revision + 1, plan.version)
}

type OfOne = readonly [Understood, ...Understood[]]

const isPlain = ({ meant, row }: Understood): boolean => row.kind === 'results' && row.read.outcome === 'take' && meant.mappings.length === 0

/**
 * Plans what the rows of one patient will do. `plan` is null where filing has to see them one by one: one is refused, waits for a person, or is read with a
 * mapping. `stored` is how many of them get a number, as far as can be told.
 */
function planFiling(
  rows: OfOne,
  firstId: number,
  followUp: FollowUpPlan,
  call: Call,
): { readonly plan: PlannedFiling | null; readonly stored: number } {
  const [{ patientId, patientVersion, knownAs }] = rows
  const { reader } = call.store
  // Before anything else is asked: whatever changes in between raises the revision.
  const known = reader.patient(patientId)
  if (known === null || known.version !== patientVersion || !rows.every(isPlain)) {
    return { plan: null, stored: rows.filter(({ row }) => row.kind === 'results' && row.read.outcome === 'take').length }
  }
  const shelf = shelfBefore(reader, patientId, firstId)
  const outcomes = { filed: 0, corrected: 0, known: 0, held: 0 }
  for (const { raw, row } of rows) {
    if (row.kind !== 'results' || row.read.outcome !== 'take') continue
    outcomes[fileResult(shelf, row.read.value, { fileId: NO_FILE, line: raw.line, now: call.now }).outcome] += 1
  }
  const stored = shelf.stored()
  if (outcomes.held > 0) return { plan: null, stored }
  const { revision } = known
  const standing = standingOnce(shelf, patientId, revision, followUp, call)
  return { plan: { patientId, rows: rows.length, revision, knownAs, firstId, steps: shelf.steps, outcomes, standing }, stored }
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

/** What filing rows will do, as far as it can be planned, by the first row of each patient. `firstId` is the number the next result version will get. */
export function planFilings(read: readonly Understood[], firstId: number, call: Call): ReadonlyMap<Understood, PlannedFiling> {
  const plans = new Map<Understood, PlannedFiling>()
  const followUp = planInForce(call.store.reader, call.today)
  let id = firstId
  for (const rows of byPatient(read)) {
    const { plan, stored } = planFiling(rows, id, followUp, call)
    if (plan !== null) plans.set(rows[0], plan)
    id += stored
  }
  return plans
}
