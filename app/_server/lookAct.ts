'use server'

import { cookies } from 'next/headers'
import { z } from 'zod'
import type { Outcome } from '../../lib/usecases/index.ts'
import { LOOKS } from '../_parts/looks.ts'
import { openAction } from './guard.ts'
import { LOOK_COOKIE } from './look.ts'

const YEAR_S = 365 * 24 * 3600

/** Keeps in this browser whether its pages are light or dark. Nothing of the clinic changes, so nothing is logged. */
export async function chooseLook(_: Outcome<null> | null, form: FormData): Promise<Outcome<null>> {
  return openAction(z.strictObject({ look: z.enum(['device', ...LOOKS]) }), form, async ({ look }) => {
    const jar = await cookies()
    const place = { path: '/', secure: true } as const
    if (look === 'device') jar.delete({ name: LOOK_COOKIE, ...place })
    else jar.set(LOOK_COOKIE, look, { ...place, httpOnly: true, sameSite: 'lax', maxAge: YEAR_S })
    return { ok: true, value: null }
  })
}
