import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { withoutGuards } from '../store/guards.ts'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { fits } from './fits.ts'
import { admit, closeRecord, daysAgo, RISEN } from './ownPatient.ts'
import { picture } from './picture.ts'

const CLOSED = 'Z-CLOSED-RECORD'
const REASON = 'Admitted tonight with fractures'

// Many pages and pictures, on a machine that may be busy.
const PATIENTLY = 300_000

const main = (page: Page) => textOf(page.locator('main'))

/** A closed record: refused to a nurse, opened by a physician with a reason, read by quality. */
export function emergency(clinic: () => Clinic): void {
  describe('a closed record', { timeout: PATIENTLY }, () => {
    beforeAll(async () => {
      await admit(clinic(), CLOSED, RISEN)
      await closeRecord(clinic(), CLOSED)
    }, PATIENTLY)

    it('is refused to a nurse, with since when and what can be done, and no way in', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      expect((await page.goto(patientPath(clinic(), CLOSED)))?.status()).toBe(403)
      const said = await main(page)
      expect(said).toContain(`This record is closed since ${daysAgo(1)}`)
      expect(said).toContain('send a row of the patients file with the status followed')
      expect(said).not.toContain('16 g/L')
      expect(await page.locator('main form').count()).toBe(0)
      expect(await page.getByRole('link', { name: 'Emergency view' }).count()).toBe(0)
      await fits(page, 'closed-record-nurse', { fullPage: true })
      expect((await page.goto('/emergency'))?.status()).toBe(403)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is opened by a physician with a reason, for reading only, and closed when the view is ended', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      expect((await page.goto(patientPath(clinic(), CLOSED)))?.status()).toBe(403)
      await page.waitForLoadState('networkidle')
      await fits(page, 'closed-record-physician', { fullPage: true })
      const reason = page.getByLabel('Why you have to see this record')
      await reason.fill('          x')
      await page.getByRole('button', { name: 'Open for 60 minutes' }).click()
      await page.getByRole('alert').filter({ hasText: 'at least 10 characters' }).waitFor()
      expect(await reason.inputValue()).toBe('          x')
      await reason.fill(REASON)
      await reason.press('Enter')
      const band = page.getByRole('complementary', { name: 'Emergency view' })
      await band.waitFor()
      expect(await textOf(band.locator('p').first())).toMatch(new RegExp(`^Emergency view until \\d\\d:\\d\\d - ${REASON} - shown to quality$`))
      expect(await main(page)).toContain('16 g/L')
      // Beside the form that ends the view: two days compared, and the summary taken along. None of them changes the record.
      const others = page.locator('main form:not(.look-days):not(.exports)')
      expect([await others.count(), await page.locator('main form').count(), await page.locator('section.merges').count()]).toEqual([1, 3, 0])
      expect([new URL(page.url()).search, await page.title()]).toEqual(['', 'Patient - Lowmark'])
      expect((await page.goto(patientPath(clinic(), CLOSED)))?.status()).toBe(200)
      await page.waitForLoadState('networkidle')
      await fits(page, 'emergency-open', { fullPage: true })
      await page.emulateMedia({ media: 'print' })
      expect(await band.isVisible()).toBe(true)
      expect(await band.getByRole('button').isVisible()).toBe(false)
      await picture(page, 'emergency-open-print')
      await page.emulateMedia({ media: null })
      await band.getByRole('button', { name: 'End it now' }).click()
      await page.waitForURL('**/emergency')
      expect((await page.goto(patientPath(clinic(), CLOSED)))?.status()).toBe(403)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is opened by its number in a form, which never stands in the address; a number nobody has says nothing', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.getByRole('link', { name: 'Emergency view' }).click()
      await page.waitForURL('**/emergency')
      await page.waitForLoadState('networkidle')
      const number = page.getByLabel('Patient number')
      await number.fill('Z-NOBODY-AT-ALL')
      await page.getByLabel('Why you have to see this record').fill(REASON)
      await page.getByRole('button', { name: 'Open for 60 minutes' }).click()
      await page.getByRole('alert').filter({ hasText: 'No record can be opened by what was typed.' }).waitFor()
      expect(await number.inputValue()).toBe('Z-NOBODY-AT-ALL')
      await number.fill(CLOSED)
      await page.getByRole('button', { name: 'Open for 60 minutes' }).click()
      await page.getByText('Open now').waitFor()
      expect(page.url()).toBe(`${clinic().url}/emergency`)
      await fits(page, 'emergency-opened', { fullPage: true })
      await page.getByRole('status').getByRole('link', { name: CLOSED }).click()
      await page.getByRole('complementary', { name: 'Emergency view' }).waitFor()
      expect(complaints).toEqual([])
      // The view ends with its session: quality reads that below.
      await page.getByRole('button', { name: 'Sign out' }).click()
      await page.waitForURL('**/sign-in')
      await context.close()
    })

    it('is read by quality, who acknowledges it; the patient is not named and the count goes down', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'quality')
      await page.goto('/log')
      await page.getByRole('link', { name: '2 emergency views wait to be acknowledged' }).click()
      await page.waitForURL('**/emergency/views')
      await page.waitForLoadState('networkidle')
      const first = page.getByRole('article').first()
      expect(await textOf(first)).toContain(REASON)
      expect(await textOf(first)).toContain('ended by the physician')
      expect(await main(page)).toContain('ended with the session')
      expect(await page.content()).not.toContain(CLOSED)
      await fits(page, 'emergency-views-waiting', { fullPage: true })
      await first.getByLabel('Note').fill('Asked the ward')
      await first.getByRole('button', { name: 'Acknowledge' }).click()
      await page.getByText(/Emergency view \d+ is acknowledged\./).waitFor()
      await page.getByRole('heading', { name: 'Waiting to be acknowledged: 1' }).waitFor()
      expect(await main(page)).toContain('Asked the ward')
      await page.goto('/log')
      await page.getByRole('link', { name: '1 emergency view waits to be acknowledged' }).waitFor()
      expect(complaints).toEqual([])
      await context.close()
    })
  })

  describe('the log', { timeout: PATIENTLY }, () => {
    it('tells an administrator who was shown a patient, by a number that is in no address', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'administrator')
      await page.goto('/log')
      await page.waitForLoadState('networkidle')
      const asking = page.getByRole('form', { name: 'Ask the log' })
      await asking.getByLabel('Question').selectOption('who-opened')
      await asking.getByLabel('Patient number').fill(CLOSED)
      await asking.getByRole('button', { name: 'Ask' }).click()
      await page.getByRole('status').filter({ hasText: 'latest first' }).waitFor()
      const answer = page.locator('section', { has: asking })
      expect(await textOf(answer.locator('tbody'))).toContain(`Patient ${CLOSED} was opened in emergency view`)
      expect(await asking.getByLabel('Patient number').inputValue()).toBe(CLOSED)
      expect(page.url()).toBe(`${clinic().url}/log`)
      await fits(page, 'log-who-opened', { fullPage: true })
      await asking.getByLabel('Question').selectOption('failures')
      await asking.getByRole('button', { name: 'Ask' }).click()
      await page.getByRole('table', { name: 'By person, address and action' }).waitFor()
      await fits(page, 'log-failures', { fullPage: true })
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain(`Asked the log: who opened, patient ${CLOSED}.`)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is reviewed by quality for a period, and says since when it was not', async () => {
      // The log of these tests began today, and today cannot be reviewed: an entry of the day before yesterday stands before the others.
      const outside = fromOutside(clinic().databaseUrl)
      withoutGuards(outside, () => outside.run('UPDATE trail SET at = ? WHERE sequence = 1', `${daysAgo(3)}T10:00:00.000Z`))
      outside.close()
      const { page, context, complaints } = await signedInAs(clinic(), 'quality')
      await page.goto('/log')
      expect(await main(page)).toContain(`Not reviewed since ${daysAgo(3)}.`)
      await page.getByRole('link', { name: 'Reviews of the log' }).click()
      await page.waitForURL('**/log/reviews')
      await page.waitForLoadState('networkidle')
      await page.getByRole('button', { name: 'Record it' }).click()
      await page.getByRole('alert').filter({ hasText: 'Say what was looked at' }).waitFor()
      await page.getByLabel('Failures and refusals').check()
      await page.getByLabel('To').fill(daysAgo(2))
      await page.getByLabel(/^Note/).fill('Nothing out of the way')
      await page.getByRole('button', { name: 'Record it' }).click()
      await page.getByText(`Recorded as reviewed from ${daysAgo(3)} to ${daysAgo(2)}: 1 entry.`).waitFor()
      expect(await textOf(page.locator('tbody'))).toContain('Nothing out of the way')
      expect(await main(page)).toContain(daysAgo(1))
      await fits(page, 'log-reviews-done', { fullPage: true })
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}
