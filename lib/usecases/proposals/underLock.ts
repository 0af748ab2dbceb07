import type { Change, Tx } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { typedText } from '../decisions/typedText.ts'
import { logClosedRefusal } from '../emergency/closed.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type AsTheyStand, asTheyStand } from './asTheyStand.ts'
import { unlessRefused, type Wish } from './proposal.ts'

/**
 * May, then under the write lock: load, and let `change` judge what is asked against what is true now and keep it with its entries of the log, or refuse,
 * and then nothing is written. It sees the patient as they stand at that moment, so that nobody decides on what has changed since the page was shown.
 */
export async function underLock<T>(call: Call, wish: Wish, change: (tx: Tx, patient: AsTheyStand, text: string) => Change<T>): Promise<Outcome<T>> {
  const refused = await refusedUnlessMay(call, wish.permission, 'patient')
  if (refused !== null) return refused
  const isLeftOut = wish.optional === true && wish.typed.trim() === ''
  const typed = isLeftOut ? { text: '' } : typedText(wish.typed, wish.called)
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  const outcome = await unlessRefused(() => call.store.record(call, (tx) => change(tx, asTheyStand(call, wish.patientId, tx), typed.text)))
  if (!outcome.ok && outcome.closed) await logClosedRefusal(call, wish.permission, call.store.reader.keptId(wish.patientId))
  return outcome
}
