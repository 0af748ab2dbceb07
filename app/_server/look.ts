import 'server-only'
import { cookies } from 'next/headers'
import { LOOKS, type Look } from '../_parts/looks.ts'

/** Holds one of two words and names nobody; forgotten after a year. */
export const LOOK_COOKIE = '__Host-lowmark-look'

/** What was chosen for this browser; null where it follows the device. */
export async function lookChosen(): Promise<Look | null> {
  const chosen = (await cookies()).get(LOOK_COOKIE)?.value
  return LOOKS.find((look) => look === chosen) ?? null
}
