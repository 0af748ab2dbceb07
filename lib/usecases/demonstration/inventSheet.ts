import type { Call, Outcome } from '../call.ts'
import { previewSheet } from '../sheets/previewSheet.ts'
import { releaseSheet } from '../sheets/releaseSheet.ts'
import { DEMONSTRATION_NAMES } from './demonstrationNames.ts'

const OWN = 'Please bring the list of all your pills to the next visit.'
const TESTS = ['serum-m-protein', 'involved-light-chain', 'haemoglobin', 'creatinine'] as const

/** One sheet the demonstration's physician released for the first patient of the list, so that a newcomer can open one. None for an empty list. */
export async function inventSheet(call: Call): Promise<Outcome<unknown>> {
  const [first] = call.store.reader.standingsInOrder()
  if (first === undefined) return { ok: true, value: null }
  const physician: Call = { ...call, actor: { ...call.actor, name: DEMONSTRATION_NAMES.physician, role: 'physician' } }
  const wish = { patientId: first.patientId, chosen: TESTS, own: OWN, visitOn: null }
  const shown = await previewSheet(physician, wish)
  if (!shown.ok) return shown
  const { digest, afterSheet } = shown.value
  return releaseSheet(physician, { ...wish, digest, afterSheet })
}
