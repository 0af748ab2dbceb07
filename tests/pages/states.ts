import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { showPart } from '../../.ci/design/drawParts.ts'
import { PARTS } from '../../.ci/design/parts.ts'
import { EMPTY } from '../../.ci/design/states.ts'
import { RENEWING } from '../../app/_parts/underway/waitingWords.ts'
import { ROLES } from '../../lib/access/index.ts'
import { withoutGuards } from '../store/guards.ts'
import { fromOutside } from '../store/outside.ts'
import { axeFinds } from './accessible.ts'
import { type Clinic, signedInAs, textOf, visit } from './clinic.ts'
import { type EmptyClinic, openEmptyClinic } from './emptyClinic.ts'
import { fits } from './fits.ts'

const EMPTY_PAGES = Object.entries(EMPTY).flatMap(([page, empty]) => ('says' in empty ? [{ page, ...empty }] : []))

interface Times {
  readonly bar: number
  readonly words: number
}

/** Notes, in the page itself, when it was clicked and when waiting was first shown: what passes between page and test is not measured. */
async function watchWaiting(page: Page): Promise<() => Promise<Times>> {
  await page.evaluate(() => {
    const seen: Record<string, number> = {}
    Object.assign(window, { seen })
    document.addEventListener(
      'click',
      () => {
        seen.click = performance.now()
      },
      true,
    )
    new MutationObserver(() => {
      if (seen.click === undefined) return
      if (document.querySelector('.under-way-bar') !== null) seen.bar ??= performance.now() - seen.click
      if (document.querySelector('.under-way-says') !== null) seen.words ??= performance.now() - seen.click
    }).observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true })
  })
  return () => page.evaluate(() => (window as unknown as { seen: Times }).seen)
}

const says = (page: Page) => page.locator('.under-way-says')
const headingHasFocus = (page: Page): Promise<boolean> => page.evaluate(() => document.activeElement?.matches('main h1') ?? false)

/** Empty, slow, failed, not there: what each page shows then, and that nothing typed is lost. */
export function states(clinic: () => Clinic): void {
  describe('the states of every page', { timeout: 240_000 }, () => {
    let empty: EmptyClinic | null = null
    const first = (): EmptyClinic => {
      if (empty === null) throw new Error('not open')
      return empty
    }
    beforeAll(async () => {
      empty = await openEmptyClinic(clinic())
    })
    afterAll(async () => {
      await empty?.close()
    })

    it.each(EMPTY_PAGES)('$page, empty, says so and what comes next', async ({ as, at, says: sentence }) => {
      const { page, context, complaints } = await signedInAs(first(), as)
      expect((await page.goto(at))?.status()).toBe(200)
      expect((await textOf(page.locator('main'))).replaceAll(/\s+/g, ' ')).toContain(sentence)
      await fits(page, `empty-${at.slice(1).replaceAll('/', '-')}`)
      await page.emulateMedia({ colorScheme: 'dark' })
      expect(await axeFinds(page)).toEqual([])
      expect(complaints).toEqual([])
      await context.close()
    })

    it('slow: from every way in of every role, a bar at once, words after a second, and the focus at the heading', async () => {
      const bars: number[] = []
      for (const role of ROLES) {
        const { page, context, complaints } = await signedInAs(first(), role)
        await page.waitForLoadState('networkidle')
        const count = await page.locator('.ways a').count()
        for (let at = 0; at < count; at++) {
          const way = page.locator('.ways a').nth(at)
          const to = (await way.getAttribute('href')) ?? ''
          if (new URL(page.url()).pathname === to) continue
          const times = await watchWaiting(page)
          first().halt()
          await way.click()
          await says(page).waitFor()
          expect(await textOf(says(page))).toBe('Still loading.')
          first().goOn()
          await page.waitForURL(`**${to}`)
          await page.locator('.under-way-bar').waitFor({ state: 'detached' })
          await expect.poll(() => headingHasFocus(page), { message: to }).toBe(true)
          const { bar, words } = await times()
          bars.push(bar)
          expect(words).toBeGreaterThan(900)
        }
        // The browser finds it odd that what was preloaded for the page is used so late: it is the server of the test that held still.
        expect(complaints.filter((one) => !one.includes('was preloaded using link preload but not used'))).toEqual([])
        await context.close()
      }
      // The machine of the tests is shared: what holds for most of the ways is what the code does.
      expect(bars.length).toBeGreaterThan(15)
      expect(bars.toSorted((a, b) => a - b)[Math.floor(bars.length / 2)]).toBeLessThan(100)
    })

    it('slow because the answers of today are worked out first: says so, and how far that is', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/rounds')
      await page.waitForLoadState('networkidle')
      const db = fromOutside(clinic().databaseUrl)
      const { followed } = db.get<{ followed: number }>('SELECT count(*) AS followed FROM standing') ?? { followed: 0 }
      // As after a new version of the program: everybody but one.
      db.run("UPDATE standing SET rules_version = 'an earlier one' WHERE patient_id <> (SELECT min(patient_id) FROM standing)")
      db.close()
      // The list waits on its way, so that as many wait as long as is looked.
      let letGo = (): void => undefined
      const held = new Promise<void>((resolve) => {
        letGo = resolve
      })
      await page.route(/\/list(\?|$)/, async (route) => {
        await held
        await route.continue()
      })
      await page.getByRole('link', { name: 'Review list', exact: true }).click()
      await page.locator('.under-way-far').waitFor()
      expect(await textOf(says(page))).toBe(RENEWING)
      expect(await textOf(page.locator('.under-way-far'))).toBe(`Patients worked out: 1 of ${followed}`)
      expect(await page.getByRole('progressbar').evaluate((bar: HTMLProgressElement) => [bar.value, bar.max])).toEqual([1, followed])
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme })
        await fits(page, `renewing-${colorScheme}`)
      }
      letGo()
      await page.waitForURL('**/list', { timeout: 150_000 })
      await page.locator('.list .row').first().waitFor()
      expect(await page.locator('.under-way-far').count()).toBe(0)
      expect(await page.evaluate(async () => (await fetch('/renewal')).json())).toEqual({ waiting: 0, of: followed })
      expect(complaints).toEqual([])
      await context.close()
    })

    it('slow: a form that waits for its answer says so, and stays as it is', async () => {
      const { page, context, complaints } = await signedInAs(first(), 'administrator')
      await page.waitForLoadState('networkidle')
      await page.getByLabel('Name').fill('slow-person')
      const times = await watchWaiting(page)
      first().halt()
      await page.getByRole('button', { name: 'Add' }).click()
      await says(page).waitFor()
      expect(await textOf(says(page))).toBe('Still waiting for the answer. Leave this page open.')
      await fits(page, 'slow')
      first().goOn()
      await page.getByText('One-time code, shown this once').waitFor()
      expect((await times()).bar).toBeLessThan(300)
      expect(await says(page).count()).toBe(0)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('not there: the page stays with what was typed, and the next one comes once the server is back', async () => {
      const { page, context } = await signedInAs(first(), 'administrator')
      await page.waitForLoadState('networkidle')
      await page.getByLabel('Name').fill('typed while it was gone')
      await first().kill()
      await page.getByRole('button', { name: 'Add' }).click()
      await page
        .getByRole('alert')
        .filter({ hasText: /^Lowmark does not answer, so this was probably not kept\./ })
        .waitFor()
      expect(await page.getByLabel('Name').inputValue()).toBe('typed while it was gone')
      await page.getByRole('link', { name: 'System' }).click()
      await says(page).waitFor()
      expect(await textOf(says(page))).toMatch(/^Lowmark does not answer\. This page stays as it is/)
      await fits(page, 'not-there')
      expect(await page.getByLabel('Name').inputValue()).toBe('typed while it was gone')
      await page.getByRole('button', { name: 'Stay on this page' }).click()
      await says(page).waitFor({ state: 'detached' })
      await page.getByRole('link', { name: 'System' }).click()
      await says(page).waitFor()
      await first().startAgain()
      await page.waitForURL('**/system', { timeout: 20_000 })
      await expect.poll(() => headingHasFocus(page)).toBe(true)
      // A page is here when its last byte is, which may be after its heading.
      await expect.poll(() => says(page).count()).toBe(0)
      await context.close()
    })

    it('failed: says what is safe, has the focus, and comes when it is tried again', async () => {
      const { page, context } = await signedInAs(first(), 'navigator')
      const db = fromOutside(first().databaseUrl)
      db.run("INSERT INTO source_profile VALUES ('Broken', 1, '[]', 'a reason', 'tests', '2026-11-01T00:00:00.000Z')")
      await page.getByRole('link', { name: 'Sources' }).click()
      await page.getByRole('heading', { name: 'This page failed' }).waitFor()
      expect(await headingHasFocus(page)).toBe(true)
      expect(await textOf(page.locator('main'))).toMatch(/Nothing was changed by opening the page, .*the reference is \d+/)
      await fits(page, 'failed')
      expect((await page.goto('/sources'))?.status()).toBe(500)
      await page.getByRole('heading', { name: 'This page failed' }).waitFor()
      withoutGuards(db, () => db.exec('DELETE FROM source_profile'))
      db.close()
      await page.getByRole('button', { name: 'Try again' }).click()
      await page.getByRole('heading', { name: 'Sources' }).waitFor()
      await context.close()
    })

    it.each([...ROLES, null])('every part of the design page is where it says, as %s sees it', async (as) => {
      const { page, context } = as === null ? await visit(clinic()) : await signedInAs(clinic(), as)
      for (const part of PARTS.filter((one) => one.as === as)) {
        const box = await (await showPart(page, part)).boundingBox()
        expect(box?.height ?? 0, part.name).toBeGreaterThan(4)
      }
      await context.close()
    })

    it.each(ROLES)('refused to %s: the true status, the reason, and what to do', async (role) => {
      const { page, context } = await signedInAs(first(), role)
      const closed = ({ navigator: '/accounts', physician: '/cohort', quality: '/list', administrator: '/list' } as const)[role]
      expect((await page.goto(closed))?.status()).toBe(403)
      expect(await textOf(page.locator('main'))).toMatch(new RegExp(`^Not allowed.*The role ${role} does not include this`))
      expect(await textOf(page.locator('main'))).toContain('ask the administrator for a role that includes it')
      await fits(page, `refused-${role}`)
      await context.close()
    })
  })
}
