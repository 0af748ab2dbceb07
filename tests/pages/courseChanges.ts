import type { Locator, Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { axeFinds } from './accessible.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { admit, daysAgo, RISEN } from './ownPatient.ts'
import { picture } from './picture.ts'

const PATIENT = 'Z-COURSE'
const REASON = 'read again in the letters of that time'
const WIDTHS = [1440, 1024, 390] as const

const section = (page: Page): Locator => page.locator('.course-change')
const formOf = (page: Page, name: RegExp): Locator => section(page).getByRole('form', { name })

async function openForm(page: Page, says: RegExp): Promise<Locator> {
  await section(page).locator('summary', { hasText: says }).first().click()
  return formOf(page, says).first()
}

/** Shows the consequence, types the reason and keeps it, by keyboard where that is asked. */
async function keepAfterLooking(form: Locator, button: RegExp): Promise<string> {
  await form.getByRole('button', { name: 'See what would change' }).click()
  const shown = form.getByRole('region', { name: 'What this would do' })
  await shown.waitFor()
  expect(await shown.evaluate((element) => element === document.activeElement)).toBe(true)
  const told = await textOf(shown)
  await form.getByLabel('Why').fill(REASON)
  await form.getByRole('button', { name: button }).click()
  return told
}

async function goTo(clinic: Clinic, page: Page): Promise<void> {
  await page.goto(patientPath(clinic, PATIENT))
  await page.waitForLoadState('networkidle')
}

/** A physician changes the course of a patient, sees before what it would do, and takes it back; a nurse reads of it. */
export function courseChanges(clinic: () => Clinic): void {
  describe('changing the course', { timeout: 240_000 }, () => {
    beforeAll(async () => {
      await admit(clinic(), PATIENT, RISEN)
    })

    it('a physician starts a line, seeing first that the finding would end, and the page is drawn with it', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await goTo(clinic(), page)
      expect(await textOf(section(page))).toContain('nobody changed it')
      const form = await openForm(page, /^Start a line/)
      await form.getByLabel('Began on').fill(daysAgo(3))
      await form.getByLabel('Drugs by INN, with + between them').fill('daratumumab + gibberish')
      await form.getByLabel('Intent').selectOption('relapse')
      const told = await keepAfterLooking(form, /^Start this line/)
      expect(told).toContain('Not a drug name Lowmark knows: gibberish')
      expect(told).toMatch(/serum M-protein, baseline/)
      expect(told).toContain('Findings that would end')
      await section(page).locator('.course-changes li').first().waitFor()
      expect(await textOf(section(page).locator('.course-changes'))).toMatch(
        /Treatment: line 2 from .*daratumumab \+ gibberish, relapse, by .*read again/,
      )
      expect(complaints).toEqual([])
      await context.close()
    })

    it('a phase that steps back is refused until that is meant; what was typed stands', async () => {
      const { page, context } = await signedInAs(clinic(), 'physician')
      await goTo(clinic(), page)
      const form = await openForm(page, /^Record a phase/)
      await form.getByLabel('Phase').selectOption('smouldering')
      await form.getByLabel('Began on').fill(daysAgo(1))
      await form.getByRole('button', { name: 'See what would change' }).click()
      await form.getByRole('alert').waitFor()
      expect(await textOf(form.getByRole('alert'))).toContain('would step back')
      expect([await form.getByLabel('Phase').inputValue(), await form.getByLabel('Began on').inputValue()]).toEqual(['smouldering', daysAgo(1)])
      await form.getByLabel('The course steps back; that is meant').check()
      await keepAfterLooking(form, /^Record this phase/)
      await page.getByText('Phase: smouldering from').first().waitFor()
      const back = await openForm(page, /^Take this back/)
      await keepAfterLooking(back, /^Take it back/)
      await section(page).getByText('Taken back by').waitFor()
      await context.close()
    })

    it('a second physician who was shown a consequence that holds no longer is told, sees the new one, and keeps that', async () => {
      const [one, two] = [await signedInAs(clinic(), 'physician'), await signedInAs(clinic(), 'physician')]
      for (const { page } of [one, two]) await goTo(clinic(), page)
      const first = await openForm(one.page, /^Change care/)
      await first.getByLabel('Care').selectOption('maintenance')
      await first.getByLabel('From').fill(daysAgo(1))
      await first.getByRole('button', { name: 'See what would change' }).click()
      await first.getByRole('region').waitFor()
      const second = await openForm(two.page, /^Correct line 2/)
      await second.getByLabel('Drugs by INN, with + between them').fill('daratumumab')
      await keepAfterLooking(second, /^Correct this line/)
      await two.page.locator('b', { hasText: 'Treatment corrected: line 2' }).waitFor()
      await first.getByLabel('Why').fill(REASON)
      await first.getByRole('button', { name: 'Change care' }).click()
      const told = first.getByRole('alert')
      await told.waitFor()
      expect(await textOf(told)).toContain('Something arrived or was decided meanwhile')
      expect(await first.getByLabel('Why').inputValue()).toBe(REASON)
      await first.getByRole('button', { name: 'Change care' }).click()
      await one.page.getByText('Care: maintenance from').first().waitFor()
      for (const { context } of [one, two]) await context.close()
    })

    it('a nurse reads what was changed and why, and has no form for it', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await goTo(clinic(), page)
      expect(await textOf(section(page))).toContain(REASON)
      expect(await section(page).locator('form, summary').count()).toBe(0)
      await context.close()
    })

    it.each(['light', 'dark'] as const)(
      'axe finds nothing with forms and a consequence open, and nothing is wider than the window: %s',
      async (colorScheme) => {
        const { page, context } = await signedInAs(clinic(), 'physician', { colorScheme })
        await goTo(clinic(), page)
        const form = await openForm(page, /^Take out line 2/)
        await form.getByRole('button', { name: 'See what would change' }).click()
        await form.getByRole('region').waitFor()
        await openForm(page, /^Start a line/)
        for (const width of WIDTHS) {
          await page.setViewportSize({ width, height: 900 })
          expect(await axeFinds(page, { part: '.course-change' })).toEqual([])
          expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
          await picture(section(page), `course-change-${width}-${colorScheme}`)
        }
        await context.close()
      },
    )
  })
}
