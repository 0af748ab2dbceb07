import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { ListQuery, ListRow } from '../views.ts'
import { todaysPlaces } from './exportedPlaces.ts'
import { listRow } from './showList.ts'

/** So many places are laid out for paper: some thirty sheets, more than anybody works through between two lists. (ours) */
export const MOST_ON_PAPER = 500

/** The review list as it is laid out for paper: the soonest windows first, whatever order the screen had. */
export interface PaperList {
  readonly asOf: Day
  readonly planVersion: string
  readonly rows: readonly ListRow[]
  /** How many match; more than `rows` where the list is cut. */
  readonly matching: number
}

/** The whole filtered list for paper, as far as it goes on paper. Logs who is on it. */
export async function printList(call: Call, query: ListQuery): Promise<Outcome<PaperList>> {
  const refused = await refusedUnlessMay(call, 'list.export', 'review list on paper')
  if (refused !== null) return refused
  const found = await todaysPlaces(call, { ...query, sort: 'urgency', descending: false }, MOST_ON_PAPER)
  if (!found.ok) return found
  const { places, matching } = found.value
  const patients = places.map(({ patientId }) => patientId)
  await call.store.record(call, () => ({ value: null, events: [{ action: 'list-exported', patients, as: 'paper' }] }))
  const rows = places.map((place, at) => listRow(place, at + 1, call))
  return { ok: true, value: { asOf: call.today, planVersion: planInForce(call.store.reader, call.today).version, rows, matching } }
}
