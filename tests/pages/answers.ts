import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { addDays, day } from '../../lib/time/index.ts'
import { axeFinds } from './accessible.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { admit, fileResults, IN_DANGER, RISEN, RISEN_AGAIN } from './ownPatient.ts'

// Last in the order by patient, so that each stands on the first page of the list turned round.
const ANSWERED = 'Z-ANSWERED'
const MEANWHILE = 'Z-MEANWHILE'
const DANGER = 'Z-DANGER'

const rowOf = async (page: Page, patientId: string): Promise<string> => {
  await page.goto('/list?sort=patient&order=down')
  return textOf(page.locator('.list .row', { hasText: patientId }))
}
const noteField = (page: Page) => page.getByLabel('What was looked at or done')
const says = (page: Page) => page.locator('.finding-work .said')
/** The answer is told at once, and the page drawn anew a moment later: this waits for it. */
const shows = (page: Page, where: string, what: string | RegExp) => page.locator(where).filter({ hasText: what }).first().waitFor()

async function openForm(clinic: Clinic, page: Page, patientId: string, named: RegExp = /^Answer/): Promise<void> {
  await page.goto(patientPath(clinic, patientId))
  await page.waitForLoadState('networkidle')
  await page.locator('.disclosed > summary', { hasText: named }).first().click()
}

/** A nurse answers what was found. */
export function answers(clinic: () => Clinic): void {
  describe('a navigator answers findings', () => {
    beforeAll(async () => {
      await admit(clinic(), ANSWERED, RISEN)
      await admit(clinic(), MEANWHILE, RISEN)
      await admit(clinic(), DANGER, IN_DANGER)
    })

    it('with the keyboard alone; the patient leaves the place in the list, and the finding says who, what and until when', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      expect(await rowOf(page, ANSWERED)).toContain('Within 30 days')
      await page.goto(patientPath(clinic(), ANSWERED))
      await page.waitForLoadState('networkidle')
      await page.locator('.disclosed > summary').first().focus()
      await page.keyboard.press('Enter')
      await page.keyboard.press('Tab')
      await page.keyboard.type('Rang; repeat sample on Friday')
      const latest = await page.getByLabel('Bring back on').inputValue()
      await page.keyboard.press('Enter')
      await shows(page, '.on-record', `Rang; repeat sample on Friday. Comes back on ${latest} or with new evidence.`)
      expect(await textOf(says(page))).toBe(`Answered. It comes back on ${latest}, or sooner with new evidence.`)
      expect(await textOf(page.locator('.answered-head'))).toBe('1 answered finding')
      expect(await textOf(page.locator('.stands'))).toMatch(/^On schedule/)
      // The finding has moved, and took the focus along.
      expect(await says(page).evaluate((told) => told === document.activeElement)).toBe(true)
      expect(await page.locator('.disclosed[open]').count()).toBe(0)
      expect(await axeFinds(page)).toEqual([])
      const row = await rowOf(page, ANSWERED)
      expect(row).toContain('On schedule')
      expect(row).toContain('1 answered')
      expect(complaints).toEqual([])
      await context.close()
    })

    it('never beyond the next due test: what was typed stays, with the reason, and is taken once the day is right', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await openForm(clinic(), page, ANSWERED)
      const field = page.getByLabel('Bring back on')
      const latest = await field.inputValue()
      const after = addDays(day(latest), 1)
      await noteField(page).fill('Seen again')
      await field.fill(after)
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      expect(await field.evaluate((input: HTMLInputElement) => input.validity.rangeOverflow)).toBe(true)
      // A browser that does not hold to the limit is told by the server.
      await field.evaluate((input) => input.removeAttribute('max'))
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await page.getByRole('alert').filter({ hasText: 'never later than the next due test' }).waitFor()
      expect([await noteField(page).inputValue(), await field.inputValue()]).toEqual(['Seen again', after])
      await field.fill(latest)
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await shows(page, '.on-record', /^Answered by .*Seen again/)
      await context.close()
    })

    it('is told of evidence that came in meanwhile, sees it, and loses nothing', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await openForm(clinic(), page, MEANWHILE)
      await noteField(page).fill('Looked at the 16')
      await fileResults(clinic(), MEANWHILE, RISEN_AGAIN)
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await page.getByRole('alert').filter({ hasText: 'New evidence arrived meanwhile' }).waitFor()
      expect(await noteField(page).inputValue()).toBe('Looked at the 16')
      await shows(page, '.finding', '17 g/L')
      expect(await noteField(page).inputValue()).toBe('Looked at the 16')
      await noteField(page).fill('Looked at both')
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await shows(page, '.on-record', /^Answered by .*Looked at both/)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('loses nothing when signed out meanwhile, or when the server cannot be reached', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await openForm(clinic(), page, MEANWHILE)
      await noteField(page).fill('A long note that took a while')
      const cookies = await context.cookies()
      await context.clearCookies()
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await page.getByRole('alert').filter({ hasText: 'You are signed out' }).waitFor()
      expect(await noteField(page).inputValue()).toBe('A long note that took a while')
      await context.addCookies(cookies)
      await context.setOffline(true)
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await page
        .getByRole('alert')
        .filter({ hasText: /^Not sent: this device has no network/ })
        .waitFor()
      expect(await noteField(page).inputValue()).toBe('A long note that took a while')
      await context.setOffline(false)
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await shows(page, '.on-record', /^Answered by .*A long note that took a while/)
      await context.close()
    })

    it('notes a danger, which stays where it is', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await openForm(clinic(), page, DANGER, /^Note/)
      expect(await page.getByLabel('Bring back on').count()).toBe(0)
      await noteField(page).fill('Rang the ward at 10')
      await page.getByRole('button', { name: 'Keep the note' }).click()
      await shows(page, '.on-record', /^Noted by .*Rang the ward at 10/)
      expect(await textOf(page.locator('.stands'))).toMatch(/^Same day/)
      expect(await rowOf(page, DANGER)).toContain('Same day')
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}
