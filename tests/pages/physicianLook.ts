import { describe, expect, it } from 'vitest'
import { axeFinds } from './accessible.ts'
import { type Clinic, patientPath, signedInAs, textOf, visit } from './clinic.ts'
import { admit, RISING } from './ownPatient.ts'
import { picture } from './picture.ts'

const PATIENT = 'Z-LOOKED-AT'
const WIDTHS = [1440, 1024, 390] as const

async function expectFitsAndAccessible(page: Awaited<ReturnType<typeof visit>>['page'], name: string): Promise<void> {
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: width === 390 ? 844 : 900 })
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name} at ${width}`).toBeLessThanOrEqual(width)
    await picture(page, `${name}-${width}`, { fullPage: true })
    if (width === 1024) continue
    expect(await axeFinds(page)).toEqual([])
  }
}

/** The physician's look at one patient: in a sentence, what would change it, how it was computed, and two days side by side. */
export function physicianLook(clinic: () => Clinic): void {
  describe('the physician looks at one patient', { timeout: 240_000 }, () => {
    it.each(['light', 'dark'] as const)('in a sentence, with what would change the window, in the %s theme', async (colorScheme) => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician', { colorScheme })
      if (colorScheme === 'light') await admit(clinic(), PATIENT, RISING)
      await page.goto(patientPath(clinic(), PATIENT))
      expect(await textOf(page.locator('.look-stands'))).toMatch(/^Active myeloma since .*; look within 30 days, because of ".*\.$/)
      const changes = page.getByRole('region', { name: 'What would change the window' })
      expect(await textOf(changes)).toMatch(/Now: Within 30 days\. If nothing arrives, today's answer holds until \d{4}-\d\d-\d\d/)
      expect(await changes.getByRole('listitem').count()).toBeGreaterThan(0)
      await page.locator('details.sum, .look-sums').evaluateAll((boxes) => {
        for (const box of boxes) box.setAttribute('open', '')
      })
      await expectFitsAndAccessible(page, `look-${colorScheme}`)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('and opens the arithmetic of a change by keyboard alone', async () => {
      const { page, context } = await signedInAs(clinic(), 'physician')
      await page.goto(patientPath(clinic(), PATIENT))
      await page.locator('.look-sums > summary').focus()
      await page.keyboard.press('Enter')
      const sum = page.locator('#sum-lowest-confirmed-serum-m-protein')
      await page.keyboard.press('Tab')
      expect(await sum.locator('summary').evaluate((box) => box === document.activeElement)).toBe(true)
      expect(await sum.locator('.sum-steps').isVisible()).toBe(false)
      await page.keyboard.press('Enter')
      expect(await sum.locator('.sum-steps').isVisible()).toBe(true)
      expect(await textOf(sum)).toMatch(/Change: [\d.]+ - [\d.]+ = [\d.]+ g\/L/)
      await page.emulateMedia({ media: 'print' })
      expect(await sum.isVisible()).toBe(true)
      expect(await page.locator('#sum-waiting').isVisible()).toBe(false)
      await context.close()
    })

    it('a link to a number’s sum opens it', async () => {
      const { page, context } = await signedInAs(clinic(), 'physician')
      await page.goto(`${patientPath(clinic(), PATIENT)}#sum-waiting`)
      await expect.poll(() => page.locator('#sum-waiting').isVisible()).toBe(true)
      await context.close()
    })

    it('the number of a finding leads to its sum, opened, by keyboard alone; so does the sentence at the top of the panel beside the list', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      const sum = page.locator('#sum-lowest-serum-m-protein .sum-steps, #sum-lowest-confirmed-serum-m-protein .sum-steps')
      const shown = () => sum.filter({ visible: true }).count()
      await page.goto(patientPath(clinic(), PATIENT))
      expect(await shown()).toBe(0)
      const told = (await textOf(page.locator('.finding > p').first())).match(/ is ([\d.]+ g\/L)/)?.[1] ?? 'no number'
      await page
        .getByRole('link', { name: /^How computed/ })
        .first()
        .focus()
      await page.keyboard.press('Enter')
      await expect.poll(shown).toBe(1)
      expect(await textOf(sum.filter({ visible: true }))).toContain(`= ${told}`)

      await page.goto('/list?rule=pd-serum')
      const row = page.locator('.list .row', { hasText: PATIENT })
      await row.getByRole('button', { name: /^Beside/ }).click()
      const beside = page.locator('.beside')
      await beside.locator('.beside-why').waitFor()
      expect(await textOf(beside.locator('.beside-why'))).toContain(told)
      expect(await beside.getByRole('link', { name: /^How/ }).count()).toBe(1 + (await beside.locator('.finding .how-computed').count()))
      await beside
        .getByRole('link', { name: /^How computed/ })
        .first()
        .focus()
      await page.keyboard.press('Enter')
      await page.waitForURL(/\/patients\/.*#how-lowest-/)
      await expect.poll(shown).toBe(1)
      expect(await textOf(sum.filter({ visible: true }))).toContain(`= ${told}`)

      await page.goto('/list?rule=pd-serum')
      await row.getByRole('button', { name: /^Beside/ }).click()
      await beside.getByRole('link', { name: 'How its numbers were computed' }).click()
      await page.waitForURL(/\/patients\/.*#how-its-numbers/)
      await expect.poll(() => page.locator('#sum-waiting').isVisible()).toBe(true)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('a nurse compares two days, without scripts too', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await page.goto(patientPath(clinic(), PATIENT))
      const days = await page.locator('#sample-days option').evaluateAll((options) => options.map((option) => option.getAttribute('value') ?? ''))
      const [to = '', from = ''] = [days[0], days.at(-1)]
      await page.getByLabel('From', { exact: true }).fill(from)
      await page.getByLabel('To', { exact: true }).fill(to)
      await page.getByRole('button', { name: 'Compare' }).click()
      await page.waitForURL(/\?from=.*&to=/)
      expect(new URL(page.url()).search).toBe(`?from=${from}&to=${to}`)
      const section = page.getByRole('region', { name: 'Compare two days' })
      const row = section.getByRole('row', { name: /^serum M-protein/ })
      expect(await textOf(row)).toMatch(/g\/L on \d{4}-\d\d-\d\d.*[+-]\d+(\.\d)? %$/)
      await expectFitsAndAccessible(page, 'look-compared')
      const cookies = await context.cookies()
      const address = page.url()
      await context.close()
      const plain = await visit(clinic(), { javaScriptEnabled: false })
      await plain.context.addCookies(cookies)
      await plain.page.goto(address)
      expect(
        await plain.page
          .getByRole('row', { name: /^serum M-protein/ })
          .first()
          .isVisible(),
      ).toBe(true)
      await plain.page.goto(address.replace(/to=[^&#]*/, 'to=2999-01-01'))
      expect(await textOf(plain.page.getByRole('region', { name: 'Compare two days' }).getByRole('alert'))).toContain('cannot be compared')
      await plain.context.close()
    })

    it('quality reads the same under a pseudonym, without what tells the age', async () => {
      const { page, context } = await signedInAs(clinic(), 'quality')
      await page.goto('/cohort')
      await page.locator('.list .open').first().click()
      await page.waitForURL(/\/cohort\/./)
      expect(await textOf(page.locator('.look-stands'))).toMatch(/since \d{4}-\d\d-\d\d/)
      expect(await page.locator('#sum-egfr, #sum-clearance').count()).toBe(0)
      await context.close()
    })
  })
}
