import type { Renewal } from '../../../lib/usecases/index.ts'

/** Asks how many patients are still to be worked out before a list can be shown. Null where none is, or no answer came: then nothing is known. */
export async function askRenewal(): Promise<Renewal | null> {
  try {
    const response = await fetch('/renewal', { cache: 'no-store' })
    if (!response.ok) return null
    const renewal = (await response.json()) as Renewal
    return renewal.waiting > 0 ? renewal : null
  } catch {
    return null
  }
}
