import { describe, expect, it } from 'vitest'
import { type Clinic, enter, patientAt, signedInAs, textOf, visit } from './clinic.ts'
import { sendIntake } from './sendIntake.ts'

/** The nurse's day: sign in, find the patient, take files in, decide on held rows, leave. */
export function navigator(clinic: () => Clinic): void {
  describe('a navigator', () => {
    it('is answered alike for an unknown name and a wrong password', async () => {
      const { page, context } = await visit(clinic())
      await enter(page, clinic().signInOf('navigator').name, 'certainly not this one')
      const wrongPassword = await textOf(page.locator('.said-wrong'))
      await enter(page, 'nobody-of-this-name', 'certainly not this one')
      expect(await textOf(page.locator('.said-wrong'))).toBe(wrongPassword)
      await context.close()
    })

    it('sees whom to look at first, and opens that patient with the keyboard alone', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      expect(new URL(page.url()).pathname).toBe('/list')
      expect(await textOf(page.locator('.group th').first())).toMatch(/^Same day/)
      await page.locator('.list .open').first().focus()
      await page.keyboard.press('Enter')
      await page.waitForURL('**/patients/*')
      await page.getByRole('heading', { name: 'Findings', exact: true }).waitFor()
      expect(complaints).toEqual([])
      await context.close()
    })

    it('filters without JavaScript, and no name stands in the address', async () => {
      const signedIn = await signedInAs(clinic(), 'navigator')
      const context = await clinic().browser.newContext({
        baseURL: clinic().url,
        javaScriptEnabled: false,
        storageState: await signedIn.context.storageState(),
      })
      const page = await context.newPage()
      await page.goto('/list')
      const all = await textOf(page.locator('.turn'))
      await page.locator('summary').click()
      await page.getByLabel('Phase').selectOption('smouldering')
      await page.getByRole('button', { name: 'Filter' }).click()
      expect(new URL(page.url()).searchParams.get('phase')).toBe('smouldering')
      expect(await textOf(page.locator('.turn'))).not.toBe(all)
      const phases = await page.locator('td.c-phase').allTextContents()
      expect(phases.length).toBeGreaterThan(0)
      expect(phases.every((phase) => phase.startsWith('Smouldering'))).toBe(true)
      await context.close()
      await signedIn.context.close()
    })

    it('tries a file, files it, and reads what became of every row', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      const patient = patientAt(clinic(), await page.locator('.list .open').first().getAttribute('href'))
      await page.goto('/intake')
      const csv = `patient_id,collected_at,code,value,unit\n${patient},2026-01-05,718-7,118,g/L\n${patient},2026-02-30,718-7,118,g/L\n${patient},2026-01-05,2160-0,88,mmol/nonsense\n`
      await page.getByLabel(/^Files/).setInputFiles({ name: 'small.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) })
      await page.getByRole('button', { name: 'Try' }).click()
      await page.getByText('Read. Nothing was filed.').waitFor()
      expect(await textOf(page.locator('.counts'))).toMatch(/^rows read3filed1already known0corrected0held1refused1$/)
      await page.getByRole('button', { name: 'File the rows' }).click()
      await page.getByText('Done. What became of every row:').waitFor()
      await page.getByRole('link', { name: 'The lasting report' }).click()
      await page.waitForURL('**/intake/*')
      expect(await page.getByRole('row').count()).toBe(3)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('refuses a held row with a reason, and not without one', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await page.goto('/held')
      await page.locator('.held-groups a').last().click()
      const form = page.getByRole('form', { name: 'Decide on the row' })
      await form.getByRole('button', { name: 'Refuse it' }).click()
      expect(await form.getByLabel(/^Reason/).evaluate((field: HTMLInputElement) => field.validity.valueMissing)).toBe(true)
      await form.getByLabel(/^Reason/).fill('The laboratory withdrew it by telephone')
      await form.getByRole('button', { name: 'Refuse it' }).click()
      // What is said once it is done; that it is still under way is a status too.
      await page.locator('.said').waitFor()
      await page.goto('/log')
      const log = await textOf(page.locator('tbody'))
      expect(log).toMatch(/Held row \d+ .*was refused/)
      // The reason is free text: it stays with the row, for the log is read by those who may see no clinical content.
      expect(log).not.toContain('withdrew it by telephone')
      await context.close()
    })

    it('may not see accounts', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      expect((await page.goto('/accounts'))?.status()).toBe(403)
      expect(await textOf(page.locator('main'))).toContain('The role navigator does not include this')
      await context.close()
    })

    it('leaves, and the cookie of before opens nothing', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      const cookies = await context.cookies()
      expect(cookies.every(({ name, secure, httpOnly, sameSite }) => name.startsWith('__Host-') && secure && httpOnly && sameSite === 'Lax')).toBe(
        true,
      )
      await page.getByRole('button', { name: 'Sign out' }).click()
      await page.waitForURL('**/sign-in')
      await context.addCookies(cookies)
      await page.goto('/list')
      expect(new URL(page.url()).pathname).toBe('/sign-in')
      expect((await sendIntake(clinic().url, cookies, 'patient_id,birth_date,sex\n')).status).toBe(403)
      await context.close()
    })
  })
}
