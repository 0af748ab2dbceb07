import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { axeFinds } from './accessible.ts'
import { type Clinic, signedInAs, textOf } from './clinic.ts'

const TREATMENT = 'field-treatment.0.every'

// A process apart has to start first, on a machine that may be busy.
const PATIENTLY = { timeout: 240_000 }

async function openForm(page: Page): Promise<void> {
  await page.goto('/plan')
  await page.getByText('Set numbers otherwise, try them, propose them').click()
}

/** What axe finds, and whether the page is wider than a telephone. */
async function violationsOf(page: Page): Promise<unknown[]> {
  await page.setViewportSize({ width: 390, height: 844 })
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
  await page.setViewportSize({ width: 1440, height: 900 })
  return axeFinds(page)
}

/** The way of a change: a physician tries and proposes, an administrator tries and publishes, a nurse reads. */
export function planVersions(clinic: () => Clinic): void {
  describe('the follow-up plan', () => {
    it.each(['navigator', 'quality'] as const satisfies readonly Role[])('is read by %s, who can neither try nor propose', async (role) => {
      const { page, context, complaints } = await signedInAs(clinic(), role)
      expect((await page.goto('/plan'))?.status()).toBe(200)
      expect(await page.getByRole('row', { name: /^MGUS, low risk/ }).count()).toBe(1)
      expect([await page.getByRole('button', { name: /Try|Propose|Publish/ }).count(), await page.locator('#proposals').count()]).toEqual([0, 0])
      const cookie = (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
      const tried = await fetch(`${clinic().url}/plan/try`, { method: 'POST', headers: { cookie, origin: clinic().url }, body: new FormData() })
      expect([tried.status, await tried.text()]).toEqual([403, expect.stringContaining(`The role ${role} does not include this`)])
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is tried and proposed by a physician, who loses nothing typed where something is wrong', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await openForm(page)
      const interval = page.locator(`[id="${TREATMENT}"]`)
      const share = page.getByLabel('A test may be late by this share of its interval')
      await interval.fill('three')
      await share.fill('400')
      await page.getByRole('button', { name: /^Try/ }).click()
      const alert = await textOf(page.getByRole('alert').filter({ hasText: 'Nothing was changed' }))
      expect(alert).toContain('is not a whole number of days or months')
      expect(alert).toContain('must be from 0 to 100 %')
      expect([await interval.inputValue(), await share.inputValue()]).toEqual(['three', '400'])
      expect(await interval.getAttribute('aria-invalid')).toBe('true')
      expect(await page.getByRole('button', { name: 'Propose it' }).isDisabled()).toBe(true)

      await interval.fill('14')
      await share.fill('0')
      // By the keyboard: Enter in a field tries.
      await share.press('Enter')
      const said = page.getByRole('region', { name: 'What the trial showed' })
      await said.waitFor(PATIENTLY)
      expect(await textOf(said)).toMatch(/\d+ patients would change window on \d{4}-\d\d-\d\d, of \d+ followed/)
      const named = await said
        .getByRole('table', { name: /^Whose window would change/ })
        .getByRole('row')
        .count()
      expect(named).toBeGreaterThan(1)
      expect(await violationsOf(page)).toEqual([])
      await page.getByRole('button', { name: 'Propose it' }).click()
      await page.getByText('The note is missing').waitFor()
      expect(await interval.inputValue()).toBe('14')
      await page.getByLabel('Why (kept with the version)').fill('Two-week cycles')
      const attempt = page.getByRole('button', { name: /^Try/ })
      await attempt.click()
      // Changed while the trial runs: what it answers is about other numbers, and opens nothing.
      await share.fill('10')
      await expect.poll(() => attempt.isEnabled(), PATIENTLY).toBe(true)
      expect([await said.count(), await page.getByRole('button', { name: 'Propose it' }).isDisabled()]).toEqual([0, true])
      await share.fill('0')
      await attempt.click()
      await said.waitFor(PATIENTLY)
      await page.getByRole('button', { name: 'Propose it' }).click()
      await page.getByText('Version 2 is proposed').waitFor()
      await page.getByRole('article', { name: /^Version 2, proposed/ }).waitFor()
      expect(await textOf(page.locator('h1'))).toBe('Follow-up plan, version 1')
      expect(complaints).toEqual([])
      await context.close()
    }, 480_000)

    it('is published by an administrator, who hears how many and not whom; then it is what everybody is held against', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'administrator')
      await page.goto('/plan')
      const proposal = page.getByRole('article', { name: /^Version 2, proposed/ })
      expect(await textOf(proposal.getByRole('table'))).toMatch(/28 days14 days.*25 %0 %/)
      const publish = proposal.getByRole('button', { name: 'Publish version 2' })
      expect(await publish.isDisabled()).toBe(true)
      await proposal.getByRole('button', { name: /^Try/ }).click()
      await proposal.getByText('would change window').waitFor(PATIENTLY)
      const shown = await textOf(proposal)
      expect(shown).toContain('Which patients these are is shown to those who may open them.')
      expect(shown).not.toMatch(/P-\d{4}/)
      expect(await violationsOf(page)).toEqual([])
      await publish.click()
      await page.getByRole('heading', { name: 'Follow-up plan, version 2' }).waitFor()
      expect(await textOf(page.getByRole('row', { name: /^active, on treatment every|^active, on treatment serum/ }))).toContain(
        'Lowmark comes with: every 28 days',
      )
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain('Version 2 of the follow-up plan was published')
      expect(complaints).toEqual([])
      await context.close()

      const nurse = await signedInAs(clinic(), 'navigator')
      expect(await textOf(nurse.page.locator('main'))).toContain('plan version 2')
      await nurse.context.close()
    }, 480_000)
  })
}
