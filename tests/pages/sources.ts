import { readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { axeFinds } from './accessible.ts'
import { type Clinic, patientAt, signedInAs, textOf } from './clinic.ts'

const NAME = 'Lab A/B & sons'
const PATH = `/sources/${encodeURIComponent(NAME)}`

async function expectFine(page: Page): Promise<void> {
  await page.setViewportSize({ width: 390, height: 844 })
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
  await page.setViewportSize({ width: 1440, height: 900 })
  expect(await axeFinds(page)).toEqual([])
}

/** What is known of a source: set by those who may, seen by a nurse, and what it makes of a file. */
export function sources(clinic: () => Clinic): void {
  describe('sources', () => {
    it('a physician sets how a source writes, by keyboard, sees at once what it makes of texts, and loses nothing typed', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.getByRole('link', { name: 'Sources' }).click()
      await page.getByLabel('Another source').fill(NAME)
      await page.keyboard.press('Enter')
      await page.getByRole('heading', { name: `Source ${NAME}` }).waitFor()
      expect(new URL(page.url()).pathname).toBe(PATH)
      expect(await textOf(page.locator('main'))).toContain('Nobody wrote a profile of it, so nothing is assumed.')

      await page.getByLabel('Decimal sign').selectOption('comma')
      await page.getByLabel('Order of a date').selectOption('day-first')
      await page.getByLabel(/^Time zone/).fill('Europe/Nowhere')
      await page.getByText('is no IANA time zone').first().waitFor()
      await page.getByLabel(/^Time zone/).fill('Europe/Berlin')
      const would = page.getByRole('figure', { name: 'What this would make of some texts' })
      await would.getByText('12,5 is read as 12.5').waitFor()
      await would.getByText('03/02/2026 is read as 3 February 2026').waitFor()
      await would.getByText('2026-03-29 08:00 is read as 2026-03-29 08:00+02:00').waitFor()
      await page.getByRole('button', { name: 'Add a code' }).click()
      await page.getByLabel('Code 1', { exact: true }).fill('718-7')
      await page.getByLabel('Unit 1 (UCUM)').fill('mg')
      await page.getByText('it needs one that converts to g/L').waitFor()
      await page.getByLabel('Unit 1 (UCUM)').fill('g/dL')
      await page.locator('.source-unit').getByText('haemoglobin').waitFor()
      expect(await page.getByLabel(/^Trusted to add patients/).isDisabled()).toBe(true)
      await expectFine(page)

      // By the keyboard: Enter in a field tries.
      await page.getByLabel('Why (kept with the version)').press('Enter')
      await page.getByText('No row of this source waits.').waitFor()
      await page.getByRole('button', { name: 'Save it as a new version' }).press('Enter')
      const alert = page.getByRole('alert').filter({ hasText: 'Nothing was saved' })
      await alert.waitFor()
      expect(await page.getByLabel('Unit 1 (UCUM)').inputValue()).toBe('g/dL')
      await page.getByLabel('Why (kept with the version)').fill('As its manual says')
      await page.getByRole('button', { name: 'Save it as a new version' }).press('Enter')
      await page.getByText('Version 1 of its profile holds.').waitFor()
      expect(await textOf(page.locator('main'))).toContain('As its manual says')
      await expectFine(page)
      expect(complaints).toEqual([])
      await context.close()
    }, 240_000)

    it('a nurse reads it and cannot change it; the intake page says what holds, and a file is read by it', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/sources')
      await page.getByRole('link', { name: NAME }).click()
      await page.getByText('Version 1 of its profile holds.').waitFor()
      expect(await page.getByRole('button', { name: /Save|Try/ }).count()).toBe(0)
      await page.goto('/list')
      const patient = patientAt(clinic(), await page.locator('.list .open').first().getAttribute('href'))
      const file = (name: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(ROWS.replaceAll('ID', patient)) })
      await page.goto('/intake')
      await page.getByLabel(/^Files/).setInputFiles(file('north.csv'))
      await page.getByLabel(/^Source/).fill(NAME)
      await page.getByText('Version 1 of its profile holds. Decimal sign: a comma').waitFor()
      await page.getByRole('button', { name: /^Try/ }).click()
      await page.getByText('Read. Nothing was filed.').waitFor({ timeout: 240_000 })
      const report = await textOf(page.getByRole('region', { name: /north\.csv/ }))
      expect(report).toContain('rows read2filed1already known0corrected0held1refused0')
      expect(report).toContain('a comma as its decimal sign')
      expect(complaints).toEqual([])
      await context.close()
    }, 240_000)

    it('an administrator saves it as a file, fills the form from one, and trusts it to add patients', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'administrator')
      await page.goto(PATH)
      const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name: 'Save it as a file' }).click()])
      const saved = JSON.parse(readFileSync(await download.path(), 'utf8')) as object
      expect(saved).toEqual({
        source: NAME,
        units: { '718-7': 'g/dL' },
        decimalSign: 'comma',
        dayOrder: 'day-first',
        timeZone: 'Europe/Berlin',
        addsPatients: false,
      })
      const path = join(tmpdir(), `lowmark-profile-${process.pid}.json`)
      writeFileSync(path, JSON.stringify({ ...saved, source: 'Another' }))
      await page.getByText('Set it otherwise, try it, save it').click()
      await page.getByLabel('Fill the form from a file').setInputFiles(path)
      await page.getByText('Nothing was loaded.').waitFor()
      writeFileSync(path, JSON.stringify({ ...saved, dayOrder: 'month-first' }))
      await page.getByLabel('Fill the form from a file').setInputFiles(path)
      await page.getByText('The form shows what the file says').waitFor()
      expect(await page.getByLabel('Order of a date').inputValue()).toBe('month-first')
      await page.getByLabel(/^Trusted to add patients/).check()
      await page.getByLabel('Why (kept with the version)').fill('Agreed with the laboratory')
      await page.getByRole('button', { name: 'Save it as a new version' }).click()
      await page.getByText('Version 2 of its profile holds.').waitFor()
      const versions = page.getByRole('region', { name: 'Versions of its profile' })
      expect(await versions.getByRole('heading', { level: 3 }).allTextContents()).toEqual(['Version 2', 'Version 1'])
      expect(await versions.getByRole('row', { name: /Adds patients nobody knows/ }).count()).toBe(1)
      expect(complaints).toEqual([])
      await context.close()
    }, 240_000)

    it('nobody else sees sources', async () => {
      const { page, context } = await signedInAs(clinic(), 'quality')
      expect((await page.goto('/sources'))?.status()).toBe(403)
      expect((await page.goto(PATH))?.status()).toBe(403)
      expect((await context.request.get(`${PATH}/file`)).status()).toBe(403)
      await context.close()
    })
  })
}

const ROWS = 'patient_id,collected_at,code,value,unit\nID,3.2.2026 8:05,718-7,"10,1",\nID,3.2.2026,33358-3,1.234,g/L\n'
