import type { Locator, Page, Request } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { fromOutside } from '../store/outside.ts'
import { axeFinds } from './accessible.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { ANAEMIC, admit } from './ownPatient.ts'
import { sendAgain } from './sendAgain.ts'

const ANAEMIA = 'Z-ANAEMIA'
const SPURIOUS = 'Z-SPURIOUS'

const sentBy = (page: Page): Promise<Request> => page.waitForRequest((request) => request.method() === 'POST' && request.url().includes('/patients/'))
const onPage = (page: Page) => textOf(page.locator('main'))

async function openPatient(clinic: Clinic, page: Page, patientId: string): Promise<void> {
  await page.goto(patientPath(clinic, patientId))
  await page.waitForLoadState('networkidle')
}

async function openResults(page: Page): Promise<void> {
  await page.locator('summary', { hasText: /^All results/ }).click()
  await page.getByLabel('Test', { exact: true }).selectOption('haemoglobin')
}

/** The first press shows what it would do, and takes the focus there. */
async function seeFirst(within: Locator): Promise<void> {
  await within.locator('.disclosed[open]').getByRole('button', { name: 'See what would change' }).click()
  const shown = within.getByRole('region', { name: 'What this would do' })
  await shown.waitFor()
  expect(await shown.evaluate((element) => element === document.activeElement)).toBe(true)
}

/** A physician names another cause, takes a spurious value out, and takes both back; a nurse may do neither. */
export function causes(clinic: () => Clinic): void {
  describe('a physician', () => {
    beforeAll(async () => {
      await admit(clinic(), ANAEMIA, ANAEMIC)
      await admit(clinic(), SPURIOUS, ANAEMIC)
    })

    it('records another cause and withdraws it; a nurse who sends the same is refused, and the refusal is logged', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await openPatient(clinic(), page, ANAEMIA)
      expect(await textOf(page.locator('.stands'))).toMatch(/^Within 7 days/)
      await page.locator('summary', { hasText: /^Another cause/ }).click()
      const cause = page.getByLabel('Cause', { exact: true })
      const suggested = page.locator(`[id="${await cause.getAttribute('list')}"] option`)
      expect(await suggested.evaluateAll((options) => options.map((option) => option.getAttribute('value')))).toContain('iron deficiency')
      await cause.fill('iron deficiency')
      await seeFirst(page.getByRole('main'))
      const recorded = sentBy(page)
      await page.getByRole('button', { name: 'Record this cause' }).click()
      await page.locator('.finding-work .said').waitFor()
      expect(await textOf(page.locator('.on-record'))).toMatch(
        /^Another cause recorded by .*iron deficiency.*Until \d{4}-\d\d-\d\d; comes back sooner when the value is 25 % worse\.$/,
      )
      expect(await textOf(page.locator('.stands'))).toMatch(/^Next visit/)
      expect(await textOf(page.locator('.finding .cautions').first())).toContain('attributed elsewhere')

      // On paper the words stand and no form does.
      await page.emulateMedia({ media: 'print' })
      expect([await page.locator('.on-record').isVisible(), await page.locator('.disclosed').first().isVisible()]).toEqual([true, false])
      await page.emulateMedia({ media: 'screen' })

      await page.locator('summary', { hasText: /^Withdraw/ }).click()
      await page.getByLabel('Why it is withdrawn').fill('ferritin is normal')
      await seeFirst(page.getByRole('main'))
      const withdrawn = sentBy(page)
      await page.getByRole('button', { name: 'Withdraw it' }).click()
      const told = page.getByText('Withdrawn. The finding stands as it did before.')
      await told.waitFor()
      expect(await told.evaluate((element) => element === document.activeElement)).toBe(true)
      expect(await textOf(page.locator('.stands'))).toMatch(/^Within 7 days/)
      expect(complaints).toEqual([])

      await expectRefused(clinic(), 'attribution.write', [await recorded, await withdrawn])
      await openPatient(clinic(), page, ANAEMIA)
      expect(await onPage(page)).not.toContain('recorded by')
      await context.close()
    })

    it('excludes a spurious value, which everything is worked out without, and restores it; a nurse only reads of it', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await openPatient(clinic(), page, SPURIOUS)
      await openResults(page)
      const newest = page.locator('.results tbody tr').first()
      expect(await textOf(newest)).toContain('95 g/L')
      await newest.locator('summary').click()
      await newest.getByLabel('Why it does not count').fill('drawn above a drip')
      await seeFirst(newest)
      const excluded = sentBy(page)
      await newest.getByRole('button', { name: 'Exclude this value' }).click()
      await newest.locator('.said').waitFor()
      expect(await newest.locator('.said').evaluate((told) => told === document.activeElement)).toBe(true)
      expect(await textOf(newest)).toMatch(/does not count: .*drawn above a drip.* by .* on \d{4}-\d\d-\d\d/)
      expect(await newest.locator('s').count()).toBe(1)
      expect(await onPage(page)).not.toContain('Clinical relapse: haemoglobin')
      expect(await textOf(page.locator('.does-not-count'))).toContain('drawn above a drip')
      expect(await axeFinds(page)).toEqual([])

      const nurse = await signedInAs(clinic(), 'navigator')
      await openPatient(clinic(), nurse.page, SPURIOUS)
      await openResults(nurse.page)
      expect(await textOf(nurse.page.locator('.results tbody tr').first())).toMatch(/does not count: .*drawn above a drip/)
      expect(await nurse.page.locator('.results form').count()).toBe(0)
      expect(await nurse.page.locator('summary', { hasText: /^Another cause/ }).count()).toBe(0)
      await nurse.context.close()

      await newest.locator('summary').click()
      await newest.getByLabel('Why it counts again').fill('the ward says it was not')
      await seeFirst(newest)
      const restored = sentBy(page)
      await newest.getByRole('button', { name: 'Restore this value' }).click()
      await newest.getByText('Restored: it counts again.').waitFor()
      expect(await onPage(page)).toContain('Clinical relapse: haemoglobin')
      expect(complaints).toEqual([])
      await expectRefused(clinic(), 'exclusion.write', [await excluded, await restored])
      await context.close()
    })
  })
}

const REFUSED = "SELECT actor, json_extract(event, '$.permission') AS permission FROM trail WHERE action = 'access-refused' ORDER BY sequence"

/** Sent once more in a nurse's name, each is refused for its permission, and the log holds each refusal; from no page of ours it is refused for that. */
async function expectRefused(clinic: Clinic, permission: string, requests: readonly Request[]): Promise<void> {
  const { context } = await signedInAs(clinic, 'navigator')
  const cookies = await context.cookies()
  const database = fromOutside(clinic.databaseUrl, { reading: true })
  const before = database.all(REFUSED).length
  for (const request of requests) {
    expect(await sendAgain(request, { cookies, origin: clinic.url })).toContain(`The role navigator does not include this (${permission})`)
    expect(await sendAgain(request, { cookies, origin: null })).toContain('did not come from a page of Lowmark')
  }
  const { name } = clinic.signInOf('navigator')
  expect(database.all(REFUSED).slice(before)).toEqual(requests.map(() => ({ actor: name, permission })))
  database.close()
  await context.close()
}
