import { describe, expect, it } from 'vitest'
import { ROLES } from '../../lib/access/index.ts'
import { type Clinic, signedInAs, visit } from './clinic.ts'
import { addressFor, PAGES } from './everyPage.ts'
import { expectSkip, expectTree } from './tree.ts'

/** Every page as a screen reader is given it, and past its top line with one key. */
export function screenReader(clinic: () => Clinic): void {
  describe('what a screen reader is given', { timeout: 180_000 }, () => {
    it.each([...ROLES, null])('on every page of %s: headings in order, landmarks once, a name for every control', async (as) => {
      const { page, context } = as === null ? await visit(clinic()) : await signedInAs(clinic(), as)
      const shown = PAGES.filter((one) => one.as === as)
      const addresses: string[] = []
      for (const { path } of shown) {
        if (as !== null && path === 'first patient') await page.goto('/list')
        addresses.push(await addressFor(clinic(), page, path))
      }
      for (const address of addresses) {
        await page.goto(address)
        await page.waitForLoadState('networkidle')
        await expectTree(page)
        await expectSkip(page)
      }
      expect(addresses.length).toBeGreaterThan(1)
      await context.close()
    })
  })
}
