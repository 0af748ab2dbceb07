import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { axeFinds } from '../pages/accessible.ts'
import { signedInAs, textOf, visit } from '../pages/clinic.ts'
import { picture } from '../pages/picture.ts'
import type { OpenIdClinic } from './openIdClinic.ts'

const WIDTHS = [1440, 1024, 390] as const

async function looksRight(page: Page, name: string): Promise<void> {
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 900 })
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name} at ${width}`).toBeLessThanOrEqual(width)
    await picture(page, `${name}-${width}`, { fullPage: true })
  }
  expect(await axeFinds(page)).toEqual([])
}

/** At the provider's own pages: a name, any password, and yes. */
async function throughProvider(page: Page, subject: string): Promise<void> {
  await page.locator('input[name=login]').fill(subject)
  await page.locator('input[name=password]').fill('any')
  await page.locator('button[type=submit]').click()
  await page.locator('button[type=submit]', { hasText: 'Continue' }).click()
}

/** What people see of it, in a real browser with the pages' own policy. */
export function inBrowser(at: () => OpenIdClinic): void {
  describe('in a browser', () => {
    test('a person joins with a code, signs out, and signs in with one press; no form leaves Lowmark', async () => {
      const admin = await signedInAs(at().clinic, 'administrator')
      await admin.page.getByLabel('Name').fill('Wanda')
      await admin.page.getByRole('button', { name: 'Add' }).click()
      const code = await textOf(admin.page.locator('.code'))

      const { page, context, complaints } = await visit(at().clinic)
      const policy = (await page.goto('/activate'))?.headers()['content-security-policy'] ?? ''
      expect(policy).toContain("form-action 'self';")
      expect(policy).not.toContain(at().stage.issuer)
      await looksRight(page, 'activate-single-sign-on')
      const join = page.getByRole('region', { name: 'Or join Clinic account' })
      await join.getByLabel('Name').fill('Wanda')
      await join.getByLabel('One-time code').fill('WRONG')
      await join.getByRole('button', { name: 'Join Clinic account' }).click()
      await join.getByText('The name or the code is not right').waitFor()
      expect(await join.getByLabel('Name').inputValue()).toBe('Wanda')
      await join.getByLabel('One-time code').fill(code)
      await join.getByRole('button', { name: 'Join Clinic account' }).click()
      await throughProvider(page, 'subject-of-wanda')
      await page.waitForURL(`${at().url()}/list`)

      await page.getByRole('button', { name: 'Sign out' }).click()
      await page.waitForURL('**/sign-in')
      await looksRight(page, 'sign-in-single-sign-on')
      await page.getByRole('button', { name: 'Continue with Clinic account' }).click()
      await page.waitForURL(`${at().url()}/list`)
      expect(complaints.filter((line) => line.startsWith(at().url()))).toEqual([])

      await admin.page.reload()
      const row = admin.page.getByRole('row', { name: /Wanda/ })
      expect(await textOf(row)).toContain('active, joined to single sign-on')
      await row.locator('summary', { hasText: 'Change' }).click()
      await looksRight(admin.page, 'accounts-single-sign-on')
      await row.getByRole('button', { name: 'Unjoin from single sign-on' }).click()
      await row.getByText('waiting for its code').waitFor()
      await page.goto('/list')
      expect(new URL(page.url()).pathname).toBe('/sign-in')
      expect(admin.complaints).toEqual([])
      await context.close()
      await admin.context.close()
    })

    test('who comes back in vain, and who cannot go, is told in one sentence', async () => {
      const { page, context, complaints } = await visit(at().clinic)
      await page.goto('/sign-in')
      await page.getByRole('button', { name: 'Continue with Clinic account' }).click()
      await throughProvider(page, 'somebody-unknown')
      await page.getByText('Signing in with single sign-on did not work. Try again; if it stays so, ask the administrator.').waitFor()
      expect(new URL(page.url()).pathname).toBe('/sign-in')
      at().stage.changes = { down: true }
      await page.getByRole('button', { name: 'Continue with Clinic account' }).click()
      await page.getByText('Clinic account does not answer at the moment.').waitFor()
      expect(await page.getByRole('button', { name: 'Continue with Clinic account' }).isEnabled()).toBe(true)
      expect(complaints.filter((line) => line.startsWith(at().url()))).toEqual([])
      await context.close()
    })
  })
}
