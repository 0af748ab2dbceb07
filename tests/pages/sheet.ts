import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { ANAEMIC, admit, fileResults } from './ownPatient.ts'
import { close, printedSheets, someOfTheCohort } from './printed.ts'

const PATIENT = 'Z-SHEET'
const OWN = 'Please come back in two weeks. We will take blood again.'

const onPaper = (page: Page) => textOf(page.getByRole('article', { name: 'Sheet for the patient' }))
const sheetsOf = (clinic: Clinic) => `${patientPath(clinic, PATIENT)}/sheet`

/** What the log has of the patient, oldest first. */
function entriesOf({ databaseUrl }: Clinic): readonly string[] {
  const db = fromOutside(databaseUrl, { reading: true })
  const rows = db.all<{ action: string }>('SELECT action FROM trail WHERE patient_id = ? ORDER BY sequence', PATIENT)
  db.close()
  return rows.map(({ action }) => action)
}

async function openSheets(clinic: Clinic, page: Page): Promise<void> {
  await page.goto(sheetsOf(clinic))
  await page.waitForLoadState('networkidle')
}

/** A physician drafts, reads how hard it is, releases, withdraws; a nurse reads and prints what was released. */
export function sheets(clinic: () => Clinic): void {
  describe('the sheet for the patient', () => {
    beforeAll(async () => {
      await admit(clinic(), PATIENT, ANAEMIC)
    })

    it('is drafted with own words, kept where refused, and released as it was shown', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.goto(patientPath(clinic(), PATIENT))
      await page.getByRole('link', { name: 'Sheet for the patient' }).click()
      await page.getByRole('heading', { name: 'Draft, not released' }).waitFor()
      expect(await onPaper(page)).toContain('Draft: not released')
      expect(await textOf(page.locator('main'))).toContain('None yet. A physician releases a sheet')
      await page.waitForFunction(() => document.title === 'Sheet for the patient - Lowmark')
      await page.waitForLoadState('networkidle')

      const own = page.getByLabel(/^Your own words/)
      await own.fill('ab')
      await page.getByRole('checkbox', { name: /^Calcium/ }).check()
      expect(await page.getByRole('button', { name: 'Release this sheet' }).isDisabled()).toBe(true)
      await page.getByRole('button', { name: 'Show it with these' }).click()
      await page.getByRole('alert').filter({ hasText: 'What you typed is missing' }).waitFor()
      expect([await own.inputValue(), await page.getByRole('checkbox', { name: /^Calcium/ }).isChecked()]).toEqual(['ab', true])

      await own.fill('Relapse probabilities necessitate reevaluating chemotherapeutic alternatives.')
      await page.getByRole('button', { name: 'Show it with these' }).click()
      await page.getByText('In your own words a reader may stumble over: relapse, probabilities.').waitFor()
      await own.fill(OWN)
      await page.getByRole('checkbox', { name: /^Calcium/ }).uncheck()
      await page.getByLabel(/^Next visit/).fill('2099-12-24')
      await page.getByRole('button', { name: 'Show it with these' }).click()
      await page.locator('.sheet-own', { hasText: OWN }).waitFor()
      expect(await textOf(page.locator('.sheet-level'))).toMatch(/^Reading level: grade \d\.\d; the goal is at most grade 8\. Within the goal\.$/)
      const seen = (await onPaper(page)).replace('Draft: not released', '').trim()
      expect(seen).toContain('Your next visit is on 24 December 2099.')

      await page.getByRole('button', { name: 'Release this sheet' }).click()
      await page.getByText('Released. It stands in the list of released sheets').waitFor()
      await page
        .getByRole('link', { name: /^Sheet \d+ of / })
        .first()
        .click()
      await page.getByRole('heading', { name: /, for staff$/ }).waitFor()
      expect(await onPaper(page)).toBe(seen)
      expect(complaints).toEqual([])
      expect(entriesOf(clinic())).toEqual(expect.arrayContaining(['sheet-drafted', 'sheet-released', 'sheet-opened']))
      await context.close()
    })

    it('is read and printed by a nurse, who can release nothing; large, in ink, on two pages at most', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await openSheets(clinic(), page)
      expect(await page.getByRole('button', { name: /Release/ }).count()).toBe(0)
      expect(await page.getByRole('article').count()).toBe(0)
      await page
        .getByRole('link', { name: /^Sheet \d+ of / })
        .first()
        .click()
      await page.getByRole('button', { name: 'Print' }).waitFor()
      await page.waitForLoadState('networkidle')
      await page.evaluate(() => {
        window.print = () => document.body.setAttribute('data-printed', 'yes')
      })
      await page.getByRole('button', { name: 'Print' }).click()
      await page.locator('body[data-printed]').waitFor()
      expect(entriesOf(clinic()).at(-1)).toBe('sheet-printed')
      const sizeOf = (element: Element) => Number.parseFloat(getComputedStyle(element).fontSize)
      const paper = page.locator('.sheet-paper')
      expect(await paper.evaluate(sizeOf)).toBeGreaterThanOrEqual(18)

      await page.emulateMedia({ media: 'print' })
      // 14 points are 18.67 pixels.
      const sizes = await paper
        .locator('p, td, th, li, span')
        .evaluateAll((all) => all.map((one) => Number.parseFloat(getComputedStyle(one).fontSize)))
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(18.6)
      const colours = await paper.evaluate((root) =>
        [root, ...root.querySelectorAll('*')].flatMap((one) => {
          const { color, fill, stroke, borderTopColor } = getComputedStyle(one)
          return [color, fill, stroke, borderTopColor]
        }),
      )
      const isInk = (colour: string) => colour === 'none' || new Set(/\d+, \d+, \d+/.exec(colour)?.[0].split(', ')).size === 1
      expect([...new Set(colours)].filter((colour) => !isInk(colour))).toEqual([])
      for (const staff of ['.sheet-desk', '.top', 'footer.caution']) expect(await page.locator(staff).isVisible()).toBe(false)
      expect(await onPaper(page)).toContain('This sheet helps you talk with your team. It does not take the place of that talk.')
      await page.pdf({ path: 'tests/output/sheet.pdf', preferCSSPageSize: true })
      const printed = await printedSheets(page)
      expect(printed.length).toBeLessThanOrEqual(2)
      expect(printed.join('')).toContain(close('It does not take the place of that talk.'))
      expect(complaints).toEqual([])
      await context.close()
    })

    it('takes two pages with the usual tests, over the invented cohort, and no page is empty', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      const items: number[] = []
      for (const path of someOfTheCohort(clinic(), 20)) {
        await page.goto(`${path}/sheet`)
        items.push((await page.locator('.sheet-item').count()) - 1)
        const printed = await printedSheets(page)
        expect(printed.length, path).toBeLessThanOrEqual(2)
        for (const text of printed) expect(text.length, path).toBeGreaterThan(200)
        expect(printed.at(-1), path).toContain(close('If you feel unwell, call your clinic'))
      }
      expect(items.length).toBeGreaterThanOrEqual(20)
      // The largest sheet there is without choosing: five tests.
      expect(Math.max(...items)).toBe(5)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('says when results came since, and is withdrawn with a reason; on paper it says so too', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await fileResults(clinic(), PATIENT, [[1, '718-7', '97', 'g/L']])
      await openSheets(clinic(), page)
      await page
        .getByRole('link', { name: /^Sheet \d+ of / })
        .first()
        .click()
      await page.getByText(/^New or other results since it was released: Haemoglobin/).waitFor()
      await page.waitForLoadState('networkidle')
      await page.locator('summary', { hasText: /^Withdraw this sheet/ }).click()
      await page.getByLabel('Why it is withdrawn').fill('A newer result came the same day')
      await page.getByRole('button', { name: 'Withdraw it' }).click()
      await page.getByText(/^Withdrawn on .*Do not hand it out\.$/).waitFor()
      expect(await page.getByRole('button', { name: 'Print' }).count()).toBe(0)
      expect(await onPaper(page)).toMatch(/^Withdrawn: not for handing out/)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is of one patient: its number at another address is nobody’s, and quality is told nothing', async () => {
      const nurse = await signedInAs(clinic(), 'navigator')
      // The demonstration's one sheet is of somebody else.
      expect((await nurse.page.goto(`${sheetsOf(clinic())}/1`))?.status()).toBe(404)
      expect(await textOf(nurse.page.locator('main'))).toContain('This patient has no sheet with the number 1.')
      await nurse.context.close()
      const quality = await signedInAs(clinic(), 'quality')
      for (const path of [sheetsOf(clinic()), `${sheetsOf(clinic())}/1`]) expect((await quality.page.goto(path))?.status()).toBe(403)
      expect((await quality.page.goto('/glossary'))?.status()).toBe(200)
      expect(await textOf(quality.page.locator('main'))).toContain('Haemoglobin')
      await quality.context.close()
    })
  })
}
