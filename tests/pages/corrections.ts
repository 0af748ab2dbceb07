import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { axeFinds } from './accessible.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { admit, daysAgo, RISEN } from './ownPatient.ts'
import { picture } from './picture.ts'
import { sendIntake } from './sendIntake.ts'

const SLIP = 'Z-SLIP'
const MARK = 'corrected since you reviewed it'
const WIDTHS = [1440, 1024, 390] as const

const rowOf = (page: Page) => page.locator('.list .row', { hasText: SLIP })

async function openPatient(clinic: Clinic, page: Page): Promise<void> {
  await page.goto(patientPath(clinic, SLIP))
  await page.waitForLoadState('networkidle')
}

/** The laboratory corrects the last serum M-protein: 10.5 g/L where it had said 16. */
async function correct(clinic: Clinic): Promise<void> {
  const { context } = await signedInAs(clinic, 'navigator')
  const rows = ['patient_id,collected_at,code,value,unit,laboratory,status', `${SLIP},${daysAgo(4)},33358-3,10.5,g/L,North laboratory,corrected`]
  const headers = { origin: clinic.url, 'x-lowmark-dry-run': 'no' }
  const answer = await sendIntake(clinic.url, await context.cookies(), `${rows.join('\n')}\n`, headers)
  const report = await answer.text()
  if (!report.includes('"corrected":1,')) throw new Error(`not corrected as it should be: ${report}`)
  await context.close()
}

/** Nothing is wider than the screen; a picture at each width. */
async function pictures(page: Page, name: string): Promise<void> {
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 900 })
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    await picture(page, `${name}-${width}`, { fullPage: true })
  }
}

async function answer(page: Page, note: string): Promise<void> {
  await page
    .locator('.disclosed > summary', { hasText: /^Answer/ })
    .first()
    .click()
  await page.getByLabel('What was looked at or done').fill(note)
  await page.getByRole('button', { name: 'Answer this finding' }).click()
  await page.locator('.on-record').filter({ hasText: note }).first().waitFor()
}

/** What a nurse had reviewed is taken back by the laboratory, and comes back to her. */
export function corrections(clinic: () => Clinic): void {
  describe('a finding that a correction takes back', () => {
    beforeAll(async () => {
      await admit(clinic(), SLIP, RISEN)
    })

    it('comes back to the nurse who reviewed it and to nobody else, with both reports, until it is answered', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await openPatient(clinic(), page)
      await answer(page, 'Told the patient by telephone')
      await correct(clinic())

      await page.goto('/list?sort=patient&order=down')
      expect(await textOf(rowOf(page))).toContain(MARK)
      await page.locator('summary', { hasText: /^Filter by/ }).click()
      await page.getByRole('checkbox', { name: 'Corrected since I reviewed it' }).check()
      await page.getByRole('button', { name: 'Filter' }).click()
      await page.waitForURL((url) => url.searchParams.get('mine') === 'yes')
      expect(await rowOf(page).count()).toBe(1)
      for (const row of await page.locator('.list .row').all()) expect(await textOf(row)).toContain(MARK)
      await pictures(page, 'list-corrected')
      expect(await axeFinds(page)).toEqual([])

      const other = await signedInAs(clinic(), 'physician')
      await other.page.goto('/list?sort=patient&order=down')
      expect(await textOf(rowOf(other.page))).not.toContain(MARK)
      await other.page.goto('/list?mine=yes')
      expect(await rowOf(other.page).count()).toBe(0)
      await other.context.close()

      await openPatient(clinic(), page)
      const finding = page.getByRole('article').filter({ has: page.getByRole('heading', { name: /^Reviewed, then corrected/ }) })
      const { name } = clinic().signInOf('navigator')
      expect(await textOf(finding)).toMatch(
        new RegExp(`^Reviewed, then corrected .*was reviewed by ${name} on .*took it back: serum M-protein of .*: 16 g/L before, 10.5 g/L now\\.`),
      )
      expect(await textOf(finding.getByRole('listitem').first())).toMatch(
        /Before: 16 g\/L, final, .*row \d+\. Now: 10\.5 g\/L, corrected, .*row 2\.$/,
      )
      await page.locator('summary', { hasText: 'the latest samples no longer show' }).click()
      const past = page.getByRole('article').filter({ has: page.getByRole('heading', { name: /taken back/ }) })
      expect(await textOf(past)).toMatch(
        /Progression by serum M-protein .*Taken back by a correction that came in on .*Answered before by .*Told the patient by telephone/,
      )
      expect(await textOf(past.locator('.cautions'))).toContain('removed by correction')
      expect(await axeFinds(page)).toEqual([])
      await pictures(page, 'corrected')

      await page
        .locator('.disclosed > summary', { hasText: /^Answer/ })
        .first()
        .click()
      expect(await page.getByLabel('Bring back on').count()).toBe(0)
      await page
        .locator('.disclosed > summary', { hasText: /^Answer/ })
        .first()
        .click()
      await answer(page, 'Rang again: it was not so')
      expect(await textOf(finding.locator('.on-record').first())).toContain('It does not come back.')
      expect(await textOf(finding.locator('.said'))).toBe('Answered. It does not come back.')
      await page.goto('/list?sort=patient&order=down')
      expect(await textOf(rowOf(page))).not.toContain(MARK)
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}
