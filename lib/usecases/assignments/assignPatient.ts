import type { StoredAssignment, Tx } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { momentSays } from '../rounds/momentSays.ts'

/** Who may have patients. */
export const HAVING_ROLES: readonly string[] = ['navigator', 'physician']

export interface AssignWish {
  readonly patientId: string
  /** The number of the account that is to have the patient; null gives the patient to nobody. */
  readonly to: number | null
  /** The number of the last assignment as the form showed it; null where it showed none. */
  readonly shown: number | null
}

function saysNow(last: StoredAssignment | null): string {
  if (last === null) return 'Nobody ever had this patient. Look again.'
  const has = last.account === null ? 'nobody has this patient any more' : `${last.account.name} has this patient`
  return `Meanwhile ${last.by} changed this (${momentSays(last.at)}): ${has}. Look again before you change it.`
}

function judge(tx: Tx, { to, shown }: AssignWish, patientId: string): void {
  if (tx.standing(patientId)?.followed !== true) refuse('not-found', 'Only a patient on the review list can be given to somebody.')
  const last = tx.lastAssignment(patientId)
  if ((last?.id ?? null) !== shown) refuse('invalid', saysNow(last))
  if ((last?.account?.id ?? null) === to)
    refuse('invalid', to === null ? 'Nobody has this patient now.' : `${last?.account?.name} has this patient already.`)
  const account = to === null ? null : (tx.accounts().find(({ id }) => id === to) ?? refuse('not-found', 'No account has this number.'))
  if (account !== null && account.disabledAt !== null) refuse('invalid', `The account ${account.name} is disabled.`)
  if (account !== null && !HAVING_ROLES.includes(account.role)) refuse('invalid', `${account.name} is neither navigator nor physician.`)
}

/** Gives a followed patient to somebody, or to nobody. Whoever was shown another state is told who changed it and when. */
export async function assignPatient(call: Call, wish: AssignWish): Promise<Outcome<{ readonly to: string | null }>> {
  const refused = await refusedUnlessMay(call, 'patient.assign', 'patient')
  if (refused !== null) return refused
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const patientId = tx.keptId(wish.patientId)
      judge(tx, wish, patientId)
      const assignmentId = tx.insertAssignment({ patientId, accountId: wish.to, by: call.actor.name, at: call.now })
      const account = tx.lastAssignment(patientId)?.account?.name ?? null
      return { value: { to: account }, events: [{ action: 'patient-assigned', patientId, assignmentId, account }] }
    }),
  )
}
