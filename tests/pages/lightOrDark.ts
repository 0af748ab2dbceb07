import { describe, expect, it } from 'vitest'
import { type Clinic, signedInAs } from './clinic.ts'

/** What a person chose for the browser, before what the device says. */
export function lightOrDark(clinic: () => Clinic): void {
  describe('light or dark', () => {
    it('is what the device says, until a person chooses for the browser; then from the first byte on', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      const paper = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor)
      const choose = async (look: string): Promise<void> => {
        await page.goto('/account')
        await page.getByLabel(look, { exact: true }).check()
        await page.getByRole('button', { name: 'Use it' }).click()
        await page.getByText('This browser shows its pages so from now on.').waitFor()
      }
      await page.goto('/account')
      const light = await paper()
      await page.emulateMedia({ colorScheme: 'dark' })
      const dark = await paper()
      expect(dark).not.toBe(light)
      await page.emulateMedia({ colorScheme: 'light' })
      await choose('Dark')
      await page.locator('html[data-look="dark"]').waitFor()
      expect(await paper()).toBe(dark)
      const chosen = (await context.cookies()).find(({ name }) => name === '__Host-lowmark-look')
      expect(chosen).toMatchObject({ value: 'dark', httpOnly: true, secure: true, sameSite: 'Lax' })
      expect(await (await page.goto('/list'))?.text()).toMatch(/^<!DOCTYPE html><html lang="en" data-look="dark">/)
      await page.emulateMedia({ colorScheme: 'dark' })
      await choose('Light')
      await page.locator('html[data-look="light"]').waitFor()
      expect(await paper()).toBe(light)
      await choose('As this device is set')
      await page.locator('html:not([data-look])').waitFor()
      expect(await paper()).toBe(dark)
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}
