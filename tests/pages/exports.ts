import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { readBack } from '../usecases/export/readBack.ts'
import { type Clinic, signedInAs, textOf } from './clinic.ts'
import { close, printedSheets, someOfTheCohort } from './printed.ts'

/** The file a button gives, with its name. */
async function saved(page: Page, button: string): Promise<{ readonly name: string; readonly text: string }> {
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: button }).click()
  const file = await download
  return { name: file.suggestedFilename(), text: readFileSync((await file.path()) ?? '', 'utf8') }
}

async function lastEntry(page: Page): Promise<string> {
  await page.goto('/log')
  return textOf(page.locator('tbody'))
}

const CAUTION = 'Lowmark flags for review. It does not diagnose, attribute or treat'

/** What leaves the program: findings as a file, with names and under pseudonyms; the list and a patient's summary on paper; the summary as FHIR. */
export function exports(clinic: () => Clinic): void {
  describe('findings as a file', () => {
    it('are those of the filtered list, and are in the log', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/list?phase=active')
      const names = await page.locator('.list .open').allTextContents()
      const { name, text } = await saved(page, 'Findings as CSV')
      expect(name).toMatch(/^findings-\d{4}-\d{2}-\d{2}\.csv$/)
      const { caution, about, rows } = readBack(text)
      expect(caution).toContain('Lowmark flags for review. It does not diagnose')
      expect(about).toContain(`findings in this file: ${rows.length}, of`)
      expect(rows.length).toBeGreaterThan(0)
      expect(new Set(rows.map(({ phase }) => phase))).toEqual(new Set(['active']))
      expect(names).toContain(rows[0]?.name)
      expect(await lastEntry(page)).toContain('The findings of the review list were exported as a file with')
      expect(complaints).toEqual([])
      await context.close()
    })

    it('come under pseudonyms to quality, list and findings, with the pseudonyms of the page', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'quality')
      await page.goto('/cohort')
      const pseudonyms = await page.locator('.list .open').allTextContents()
      const list = await saved(page, 'Export as CSV')
      const findings = await saved(page, 'Findings as CSV')
      expect([list.name, findings.name]).toEqual([expect.stringMatching(/^cohort-list-/), expect.stringMatching(/^cohort-findings-/)])
      expect(
        readBack(list.text)
          .rows.slice(0, pseudonyms.length)
          .map(({ pseudonym }) => pseudonym),
      ).toEqual(pseudonyms)
      expect(pseudonyms).toContain(readBack(findings.text).rows[0]?.pseudonym)
      for (const { text } of [list, findings]) expect(text).not.toMatch(/P-\d{4}/)
      expect(await lastEntry(page)).toContain('Findings were exported as a file under pseudonyms with')
      expect(complaints).toEqual([])
      await context.close()
    })
  })

  describe('the review list on paper', () => {
    it('has everybody the filters leave, its head and the caution on each sheet, and the sheets numbered', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/list?sort=patient')
      const followed = Number(await textOf(page.locator('.windows li:last-child b')))
      await page.getByRole('link', { name: 'Print the whole list' }).click()
      await page.waitForURL(/\/list\/print/)
      const patients = await page.locator('.paper-list tbody th').allTextContents()
      expect(await page.locator('.paper-list tbody tr').count()).toBe(followed)
      expect(new Set(patients).size).toBe(followed)
      const printed = await printedSheets(page)
      expect(printed.length).toBeGreaterThan(1)
      const inList = printed.filter((text) => text.includes(close('Review list, ')))
      expect(inList.length).toBe(printed.length)
      for (const text of printed) expect(text).toContain(close(CAUTION))
      for (const [at, text] of printed.entries()) expect(text).toContain(close(`Sheet ${at + 1} of ${printed.length}`))
      const all = printed.join('')
      const names = await page.locator('.paper-list tbody th > bdi').allTextContents()
      expect(names.filter((name) => !all.includes(close(name)))).toEqual([])
      expect(await lastEntry(page)).toContain(`The review list was laid out for paper with ${followed} patients`)
      expect(complaints).toEqual([])
      await context.close()
    })
  })

  describe('a summary for a letter', () => {
    it('is printed from the patient page, on its sheet the caution, the findings, what is due and the sources', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.locator('.list .open').first().click()
      await page.waitForURL(/\/patients\//)
      await page.getByRole('link', { name: 'Print summary' }).click()
      await page.waitForURL(/\/print$/)
      const name = await textOf(page.locator('.paper-summary h1 bdi'))
      const titles = await page.locator('.paper-findings > li > b').allTextContents()
      expect(titles.length).toBeGreaterThan(0)
      const printed = await printedSheets(page)
      for (const text of printed) expect(text).toContain(close('Lowmark flags for review.'))
      const all = printed.join('')
      for (const part of [name, ...titles, 'Source:', 'Evidence:', 'Due tests', 'Response (IMWG 2016)', CAUTION]) expect(all).toContain(close(part))
      await page.getByRole('link', { name: 'Back to the patient' }).click()
      await page.waitForURL((url) => !url.pathname.endsWith('/print'))
      expect(await lastEntry(page)).toContain('was exported as a summary for paper, revision')
      expect(complaints).toEqual([])
      await context.close()
    })

    it('runs over to a second sheet with a whole part, never with its last line', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      const counts: number[] = []
      for (const path of someOfTheCohort(clinic(), 20)) {
        await page.goto(`${path}/print`)
        const printed = await printedSheets(page)
        counts.push(printed.length)
        expect(printed.at(-1), path).toContain(close('Response and risk'))
        expect(printed.at(-1), path).toContain(close('Response (IMWG 2016)'))
      }
      expect(counts.length).toBeGreaterThanOrEqual(20)
      expect(Math.max(...counts)).toBe(2)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is saved as FHIR, named after the day alone, and is in the log with the patient', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.locator('.list .open').first().click()
      await page.waitForURL(/\/patients\//)
      const { name, text } = await saved(page, 'Summary as FHIR')
      expect(name).toMatch(/^patient-summary-\d{4}-\d{2}-\d{2}\.json$/)
      expect(JSON.parse(text)).toMatchObject({ resourceType: 'Bundle', type: 'collection' })
      const cookie = (await context.cookies()).map((one) => `${one.name}=${one.value}`).join('; ')
      const ask = (headers: Record<string, string>) =>
        fetch(`${page.url()}/summary`, { method: 'POST', redirect: 'manual', headers: { cookie, ...headers } })
      const answer = await ask({ origin: clinic().url })
      expect(answer.status).toBe(200)
      expect(answer.headers.get('content-type')).toBe('application/fhir+json; charset=utf-8')
      expect(answer.headers.get('cache-control')).toBe('private, no-store')
      expect((await ask({})).status).toBe(403)
      expect(await lastEntry(page)).toContain('was exported as a FHIR file, revision')
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}
