import type { BrowserContext } from 'playwright-core'
import { afterAll } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { type Clinic, signedInAs, visit } from './clinic.ts'

/** The browser of a role, null for nobody signed in: each role signs in once for all of its pages. Closed after the last test of the block that asks. */
export function browserOfEach(clinic: () => Clinic): (as: Role | null) => Promise<BrowserContext> {
  const browsers = new Map<Role | null, BrowserContext>()
  afterAll(async () => {
    for (const context of browsers.values()) await context.close()
  })
  return async (as) => {
    const known = browsers.get(as)
    if (known !== undefined) return known
    const { context } = as === null ? await visit(clinic()) : await signedInAs(clinic(), as)
    browsers.set(as, context)
    return context
  }
}
