import { may } from '../../access/index.ts'
import { trailSays } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { TrailRowView } from '../views.ts'

const PAGE = 50

export interface TrailPage {
  readonly rows: readonly TrailRowView[]
  readonly pages: number
  readonly scope: 'own' | 'all'
}

/** The log, newest first: all of it for those who may, else the reader's own entries. Reading it is an entry of its own. */
export async function readTrail(call: Call, page: number): Promise<Outcome<TrailPage>> {
  const refused = await refusedUnlessMay(call, 'log.read-own', 'log')
  if (refused !== null) return refused
  const { actor, store } = call
  const all = may(actor.role === 'none' ? null : actor.role, 'log.read-all').allowed
  const scope = all ? 'all' : 'own'
  await store.record(call, () => ({ value: null, events: [{ action: 'log-read', scope }] }))
  const { rows, total } = store.reader.trailPage({ actor: all ? null : actor.name, offset: (page - 1) * PAGE, limit: PAGE })
  // Quality works under pseudonyms, which are not built yet: it is not told whom an entry concerns.
  const maySeePatients = actor.role !== 'quality'
  const views = rows.map((row) => ({
    sequence: row.sequence,
    at: row.at,
    actor: row.actor,
    role: row.role,
    action: row.action,
    outcome: row.outcome,
    says: trailSays(row.event, { patients: maySeePatients }),
    patientId: maySeePatients ? row.patientId : null,
  }))
  return { ok: true, value: { rows: views, pages: Math.max(1, Math.ceil(total / PAGE)), scope } }
}
