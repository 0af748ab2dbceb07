import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { momentSays } from '../rounds/momentSays.ts'
import type { AssignedView, PersonView } from '../rounds/views.ts'
import { HAVING_ROLES } from './assignPatient.ts'

/** Who has a patient, who said so and when, and whom the patient can be given to. */
export interface AssignmentView extends AssignedView {
  readonly patientId: string
  /** Null where nobody was ever given the patient. */
  readonly by: string | null
  readonly at: string | null
  readonly people: readonly PersonView[]
}

/** Who has the patient at an address; null where nobody followed is there. Shown beside a page whose opening is in the log. */
export async function readAssignment(call: Call, address: string): Promise<Outcome<AssignmentView | null>> {
  const refused = await refusedUnlessMay(call, 'patient.assign', 'patient')
  if (refused !== null) return refused
  const { reader } = call.store
  const patientId = reader.patientIdAt(address)
  if (patientId === null || reader.standing(patientId)?.followed !== true) return { ok: true, value: null }
  const last = reader.lastAssignment(patientId)
  const people = reader.accounts().filter(({ role, disabledAt }) => disabledAt === null && HAVING_ROLES.includes(role))
  return {
    ok: true,
    value: {
      patientId,
      assignmentId: last?.id ?? null,
      to: last?.account?.name ?? null,
      disabled: last?.account?.disabled ?? false,
      isYou: last?.account?.name === call.actor.name,
      by: last?.by ?? null,
      at: last === null ? null : momentSays(last.at),
      people: people.map(({ id, name, role }) => ({ accountId: id, name, role })),
    },
  }
}
