import { describe, expect, it } from 'vitest'
import { type Clinic, signedInAs, textOf, visit } from './clinic.ts'

/** What works without a script, too: asking before something is done, and choosing light or dark. */
export function withoutScripts(clinic: () => Clinic): void {
  describe('without JavaScript', () => {
    it('disabling an account takes two steps', async () => {
      const { page, context } = await signedInAs(clinic(), 'administrator')
      await page.getByLabel('Name').fill('no-script-person')
      await page.getByRole('button', { name: 'Add' }).click()
      await page.getByText('One-time code, shown this once').waitFor()
      const plain = await visit(clinic(), { javaScriptEnabled: false })
      await plain.context.addCookies(await context.cookies())
      await plain.page.goto('/accounts')
      const row = plain.page.getByRole('row', { name: /no-script-person/ })
      const button = row.getByRole('button', { name: 'Disable no-script-person for good' })
      await row.locator('summary', { hasText: /^Change/ }).click()
      expect(await button.isVisible()).toBe(false)
      await row.locator('summary', { hasText: /^Disable/ }).click()
      await button.click()
      await row.getByText('disabled for good').waitFor()
      await plain.context.close()
      await context.close()
    })
  })

  describe('light or dark', () => {
    it('is what the device says, until a person chooses for the browser; from the first byte on, and without JavaScript', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      const paper = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor)
      await page.goto('/account')
      const light = await paper()
      await page.emulateMedia({ colorScheme: 'dark' })
      const dark = await paper()
      expect(dark).not.toBe(light)
      await page.emulateMedia({ colorScheme: 'light' })
      await page.getByLabel('Dark', { exact: true }).check()
      await page.getByRole('button', { name: 'Use it' }).click()
      await page.getByText('This browser shows its pages so from now on.').waitFor()
      expect(await paper()).toBe(dark)
      const chosen = (await context.cookies()).find(({ name }) => name === '__Host-lowmark-look')
      expect(chosen).toMatchObject({ value: 'dark', httpOnly: true, secure: true, sameSite: 'Lax' })
      const sent = await (await page.goto('/list'))?.text()
      expect(sent).toContain('data-look="dark"')
      await page.goto('/account')
      await page.getByLabel('As this device is set').check()
      await page.getByRole('button', { name: 'Use it' }).click()
      await page.locator('html:not([data-look])').waitFor()
      expect(await paper()).toBe(light)
      expect(complaints).toEqual([])

      const plain = await visit(clinic(), { javaScriptEnabled: false })
      await plain.context.addCookies(await context.cookies())
      await plain.page.goto('/account')
      await plain.page.getByLabel('Dark', { exact: true }).check()
      await plain.page.getByRole('button', { name: 'Use it' }).click()
      await plain.page.locator('html[data-look="dark"]').waitFor()
      expect(await textOf(plain.page.locator('main'))).toContain('This browser shows its pages so from now on.')
      await plain.context.close()
      await context.close()
    })
  })
}
