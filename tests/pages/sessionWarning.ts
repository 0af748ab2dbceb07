import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { type Clinic, enter, patientPath, signedInAs, textOf } from './clinic.ts'
import { fits } from './fits.ts'
import { admit, RISEN } from './ownPatient.ts'
import { endRows, HOUR_MS, idleOf, letPass, lookAgain, MINUTE_MS } from './ownSession.ts'

const OWN = 'Z-SESSION'
const TYPED = 'Rang the ward; they call back on Friday'

const bar = (page: Page) => page.locator('.session-soon')
const cover = (page: Page) => page.getByRole('alertdialog', { name: 'You are signed out' })
const note = (page: Page) => page.getByLabel('What was looked at or done')

async function openNote(clinic: Clinic, page: Page): Promise<void> {
  await page.goto(patientPath(clinic, OWN))
  await page.waitForLoadState('networkidle')
  await page.locator('.disclosed > summary').first().click()
  await note(page).fill(TYPED)
}

/** Whoever is before a page is warned before its session ends, and loses nothing typed when it has. */
export function sessionWarning(clinic: () => Clinic): void {
  describe('before a session ends', { timeout: 240_000 }, () => {
    const nurse = () => clinic().signInOf('navigator').name
    beforeAll(() => admit(clinic(), OWN, RISEN))

    it('two minutes before the idle end a bar says when, and one button keeps the session; a page that is merely open does not', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      letPass(clinic(), nurse(), { idleMs: 12 * MINUTE_MS })
      await lookAgain(page)
      expect(await bar(page).count()).toBe(0)
      letPass(clinic(), nurse(), { idleMs: 13 * MINUTE_MS + 1000 })
      await lookAgain(page)
      await bar(page).waitFor()
      expect(await textOf(bar(page).getByRole('status'))).toMatch(/^You will be signed out at \d\d:\d\d, because nothing was done here for a while\./)
      // It takes no focus from whoever is typing.
      expect(await page.evaluate(() => document.activeElement?.closest('.session-soon') ?? null)).toBeNull()
      for (let times = 0; times < 3; times++) await lookAgain(page)
      expect(idleOf(clinic(), nurse())).toBeGreaterThan(13 * MINUTE_MS)
      await fits(page, 'session-ends-soon')
      // By the keyboard alone; a key would do as well, so the button is asked for itself.
      await page.getByRole('button', { name: 'Stay signed in' }).evaluate((button: HTMLElement) => button.click())
      await bar(page).waitFor({ state: 'detached' })
      expect(idleOf(clinic(), nurse())).toBeLessThan(30_000)
      expect(complaints).toEqual([])
      await context.close()
    })

    it.each([
      ['a key', (page: Page) => page.keyboard.press('Shift')],
      ['a click', (page: Page) => page.mouse.click(5, 500)],
      ['scrolling', (page: Page) => page.mouse.wheel(0, 200)],
    ])('%s during the warning is a sign of life', async (_, live) => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      letPass(clinic(), nurse(), { idleMs: 13 * MINUTE_MS + 1000 })
      // The page was opened just now: only a second later is something done on it a sign of its own.
      await page.waitForTimeout(1100)
      await lookAgain(page)
      await bar(page).waitFor()
      // Moving the mouse, as a passing sleeve does, is none.
      await page.mouse.move(300, 300)
      await page.waitForTimeout(300)
      expect(await bar(page).count()).toBe(1)
      await live(page)
      await bar(page).waitFor({ state: 'detached' })
      expect(idleOf(clinic(), nurse())).toBeLessThan(30_000)
      await context.close()
    })

    it('the 12-hour end is told and cannot be put off', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      letPass(clinic(), nurse(), { idleMs: 0, ageMs: 12 * HOUR_MS - 5 * MINUTE_MS })
      await lookAgain(page)
      await bar(page).waitFor()
      expect(await textOf(bar(page))).toMatch(/^You will be signed out at \d\d:\d\d, 12 hours after signing in\. This cannot be put off/)
      expect(await page.getByRole('button', { name: 'Stay signed in' }).count()).toBe(0)
      await fits(page, 'session-longest')
      await page.keyboard.press('Shift')
      await lookAgain(page)
      expect(await bar(page).count()).toBe(1)
      letPass(clinic(), nurse(), { idleMs: 0, ageMs: 12 * HOUR_MS })
      await lookAgain(page)
      await cover(page).waitFor()
      expect(complaints).toEqual([])
      await context.close()
    })
  })

  describe('after a session has ended', { timeout: 240_000 }, () => {
    const nurse = () => clinic().signInOf('navigator')

    it('the page is covered by itself, out of reach of eyes, of screen readers and of paper, and nothing is kept in the browser', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await openNote(clinic(), page)
      letPass(clinic(), nurse().name, { idleMs: 15 * MINUTE_MS - 3000 })
      await lookAgain(page)
      await cover(page).waitFor()
      const shown = await page.locator('body').ariaSnapshot()
      expect(shown).toContain('You are signed out')
      for (const gone of [OWN, TYPED, nurse().name, 'Review list']) expect(shown).not.toContain(gone)
      expect(await page.locator('main').isVisible()).toBe(false)
      expect(await page.locator('body > header').isVisible()).toBe(false)
      expect(await page.evaluate(() => document.activeElement?.id)).toBe('session-over')
      // The keyboard reaches the two ways on and nothing beneath.
      const reached = new Set<string>()
      for (let times = 0; times < 6; times++) {
        await page.keyboard.press('Tab')
        reached.add(await page.evaluate(() => document.activeElement?.textContent ?? ''))
      }
      expect([...reached].filter((text) => text !== 'Sign in, in a new tab' && text !== 'Leave this page')).toEqual(
        [...reached].filter((text) => text.includes('You are signed out')),
      )
      await fits(page, 'session-over')
      await page.emulateMedia({ media: 'print' })
      expect(await page.locator('main').evaluate((main) => getComputedStyle(main).display)).toBe('none')
      const kept = await page.evaluate(() => [localStorage.length, sessionStorage.length])
      expect(kept).toEqual([0, 0])
      expect(complaints).toEqual([])
      await context.close()
    })

    it('signing in again in another tab uncovers it with everything typed, which is then taken', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await openNote(clinic(), page)
      await note(page).focus()
      endRows(clinic(), nurse().name)
      await lookAgain(page)
      await cover(page).waitFor()
      const opened = context.waitForEvent('page')
      await page.getByRole('link', { name: 'Sign in, in a new tab' }).click()
      const other = await opened
      await enter(other, nurse().name, nurse().password)
      await other.waitForURL('**/list')
      await cover(page).waitFor({ state: 'detached' })
      expect(await note(page).inputValue()).toBe(TYPED)
      expect(await note(page).evaluate((field) => field === document.activeElement)).toBe(true)
      await page.getByRole('button', { name: 'Answer this finding' }).click()
      await page.locator('.on-record').filter({ hasText: TYPED }).first().waitFor()
      expect(complaints).toEqual([])
      await context.close()
    })

    it('somebody else who signs in sees nothing of it, not even by going back', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await page.goto(patientPath(clinic(), OWN))
      await page.waitForLoadState('networkidle')
      const box = page.locator('.disclosed > summary').first()
      await box.click()
      await note(page).fill('only the nurse may read this')
      endRows(clinic(), nurse().name)
      await lookAgain(page)
      await cover(page).waitFor()
      const other = await context.newPage()
      const quality = clinic().signInOf('quality')
      await enter(other, quality.name, quality.password)
      await other.waitForURL('**/log')
      await page.waitForURL('**/log')
      const everything = () => page.evaluate(() => document.documentElement.outerHTML + [...document.querySelectorAll('input')].map((i) => i.value))
      expect(await everything()).not.toContain('only the nurse may read this')
      await page.goBack()
      await page.waitForLoadState('networkidle')
      expect(await everything()).not.toContain('only the nurse may read this')
      expect(await everything()).not.toContain(`Invented ${OWN}`)
      await context.close()
    })

    it('signing out in one tab covers the others at once; a sign of life in one takes the warning from the others', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      const other = await context.newPage()
      await other.goto('/rules')
      await other.waitForLoadState('networkidle')
      letPass(clinic(), nurse().name, { idleMs: 13 * MINUTE_MS + 1000 })
      for (const one of [page, other]) await lookAgain(one)
      await bar(other).waitFor()
      await page.getByRole('button', { name: 'Stay signed in' }).click()
      await bar(other).waitFor({ state: 'detached' })
      await page.getByRole('button', { name: 'Sign out' }).click()
      await page.waitForURL('**/sign-in')
      await cover(other).waitFor()
      await context.close()
    })
  })
}
