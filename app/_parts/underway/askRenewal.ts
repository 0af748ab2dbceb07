import type { Renewal } from '../../../lib/usecases/index.ts'
import { askJson } from '../askJson.ts'

/** Asks how many patients are still to be worked out before a list can be shown. Null where none is, or no answer came: then nothing is known. */
export async function askRenewal(): Promise<Renewal | null> {
  const renewal = await askJson<Renewal>('/renewal')
  return renewal !== null && renewal.waiting > 0 ? renewal : null
}
