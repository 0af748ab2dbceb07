import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { readBack } from '../usecases/export/readBack.ts'
import { type Clinic, signedInAs, textOf } from './clinic.ts'

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

/** What leaves the program: findings as a file, with names and under pseudonyms. */
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
}
